package frame

import (
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/timber"
)

// Remedies is what an option does, as it is written.
type Remedies struct {
	Remedies []RemedyRow `json:"remedies"`
}

// RemedyRow is a remedy for one member, or for a run of them up to ThroughNo, on one side or both.
type RemedyRow struct {
	Member    boat.Member `json:"member"`
	ThroughNo int         `json:"through_no,omitempty"`
	Remedy    boat.Remedy `json:"remedy"`
	// Species and Grade of the new timber; empty where the member is left.
	Species string `json:"species,omitempty"`
	Grade   string `json:"grade,omitempty"`
	// Strap that runs inside the frame, by its name in the rules; empty for none.
	Strap string `json:"strap,omitempty"`
}

// Choice is the remedy of one frame on one side.
type Choice struct {
	Remedy  boat.Remedy
	Species string
	Grade   string
	Strap   string
}

// MaxRemedies is how many rows an option may have.
const MaxRemedies = 2 * MaxFrames

// ReadRemedies takes an option's remedies over for these frames, floors and species, or says everything that is wrong. A
// member that no row names is left.
func ReadRemedies(d Remedies, frames []Frame, species timber.Catalogue, floors ...boat.Member) (map[boat.Member]Choice, document.Faults) {
	var f document.Faults
	if len(d.Remedies) > MaxRemedies {
		f.Add("/remedies", "at most "+strconv.Itoa(MaxRemedies)+" rows", "%d rows are given", len(d.Remedies))
		return nil, f
	}
	have := map[boat.Member]bool{}
	for _, fr := range frames {
		have[fr.Member()] = true
	}
	for _, m := range floors {
		have[m] = true
	}
	out, from := map[boat.Member]Choice{}, map[boat.Member]int{}
	for i, row := range d.Remedies {
		p := "/remedies/" + strconv.Itoa(i)
		if !row.check(p, species, &f) {
			continue
		}
		for _, m := range row.Member.Run(row.ThroughNo) {
			if !have[m] {
				f.Add(p+"/member", "a "+string(m.Kind)+" of the boat's "+string(m.Kind)+"s", "%s is not among the %ss", m, m.Kind)
				continue
			}
			if j, twice := from[m]; twice {
				f.Add(p+"/member", "each member once", "%s is already given in /remedies/%d", m, j)
				continue
			}
			from[m] = i
			out[m] = Choice{row.Remedy, row.Species, row.Grade, row.Strap}
		}
	}
	return out, f
}

func (r RemedyRow) check(p string, species timber.Catalogue, f *document.Faults) bool {
	if r.Member.Kind == boat.Floor {
		return r.checkFloor(p, species, f)
	}
	before := len(*f)
	if r.Member.Kind != boat.Frame {
		f.Add(p+"/member/kind", "frame or floor", "members of kind %s cannot be reckoned", notation.Quote(string(r.Member.Kind)))
	}
	if len(r.Member.Side.Expand()) == 0 {
		f.Add(p+"/member/side", "port, starboard or both", "the side %s is not known", notation.Quote(string(r.Member.Side)))
	}
	if r.Member.No < 0 || r.ThroughNo < 0 || r.ThroughNo > 2*MaxFrames || r.ThroughNo > 0 && r.ThroughNo < r.Member.No {
		f.Add(p+"/through_no", "a number not below member/no, at most "+strconv.Itoa(2*MaxFrames), "a run from %d through %d", r.Member.No, r.ThroughNo)
	}
	switch r.Remedy {
	case boat.Leave:
		if r.Species != "" || r.Grade != "" {
			f.Add(p, "leave species and grade out, or choose another remedy", "timber is named for a frame that is left")
		}
	case boat.ReplaceLaminated, boat.ReplaceSteamed, boat.ScarfIn, boat.Sister:
		if _, ok := species.Find(r.Species); !ok {
			f.Add(p+"/species", species.Meant(r.Species), "the species %s is not known", notation.Quote(r.Species))
		}
		if r.Grade == "" {
			f.Add(p+"/grade", "the grade as the price sheet calls it, for example FAS", "no grade is given")
		}
	default:
		f.Add(p+"/remedy", "leave, replace_laminated, replace_steamed, scarf_in or sister", "the remedy %s is not known", notation.Quote(string(r.Remedy)))
	}
	return len(*f) == before
}
