package frame

import (
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/timber"
)

// checkFloor reads what is done to floors: the same rows hold both, because an option is one piece of work.
func (r RemedyRow) checkFloor(p string, species timber.Catalogue, f *document.Faults) bool {
	before := len(*f)
	if r.Member.Side != "" {
		f.Add(p+"/member/side", "no side", "floor %d crosses the keel and is of neither side", r.Member.No)
	}
	if r.Member.No < 0 || r.ThroughNo < 0 || r.ThroughNo > 2*MaxFrames || r.ThroughNo > 0 && r.ThroughNo < r.Member.No {
		f.Add(p+"/through_no", "a number not below member/no, at most "+strconv.Itoa(2*MaxFrames), "a run from %d through %d", r.Member.No, r.ThroughNo)
	}
	switch r.Remedy {
	case boat.Leave, boat.ReplaceStrap:
		if r.Species != "" || r.Grade != "" {
			f.Add(p, "leave species and grade out, or choose another remedy", "timber is named for a floor that takes none")
		}
		if r.Remedy == boat.ReplaceStrap && r.Strap == "" {
			f.Add(p+"/strap", "a strap by its name in the rules", "no strap is named for a floor that is to be one")
		}
	case boat.ReplaceSawn, boat.ReplaceLaminated:
		if _, ok := species.Find(r.Species); !ok {
			f.Add(p+"/species", species.Meant(r.Species), "the species %s is not known", notation.Quote(r.Species))
		}
		if r.Grade == "" {
			f.Add(p+"/grade", "the grade as the price sheet calls it, for example FAS", "no grade is given")
		}
	default:
		f.Add(p+"/remedy", "leave, replace_sawn, replace_laminated or replace_strap", "the remedy %s is none of a floor", notation.Quote(string(r.Remedy)))
	}
	if r.Strap != "" && r.Remedy != boat.ReplaceStrap {
		f.Add(p+"/strap", "no strap, or the remedy replace_strap", "a strap is named for a floor that is not to be one")
	}
	return len(*f) == before
}
