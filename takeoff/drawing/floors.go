package drawing

import (
	"fmt"
	"math"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/floor"
	"ribband/takeoff/notation"
)

// Floors is every floor of a boat, each in its own plane and all to one scale, as whoever stands abaft looks at them: port to the
// left.
type Floors struct {
	Sheet    Sheet
	Notation notation.Notation
	Floors   []DrawnFloor
}

// DrawnFloor is one floor with what is done to it; Remedy is empty where nothing was said.
type DrawnFloor struct {
	No     int
	Remedy boat.Remedy
	// Outline is nil where the floor's shape is not known; Across and Height are then its size by hand, 0 where there is none
	// either, for the reason in Why.
	Outline        *floor.Outline
	Across, Height float64
	Why            string
	// Laminates of one glued up, each so Thick, mm, laid over the keel with ThroatRadius.
	Laminates           int64
	Thick, ThroatRadius float64
	// Steepest is the angle, radians, at which a level board's grain crosses an arm; Short that it is too steep to be sawn.
	Steepest float64
	Short    bool
}

// word for what is done to a floor.
func (f DrawnFloor) word() string {
	switch f.Remedy {
	case boat.ReplaceSawn:
		return "new, sawn"
	case boat.ReplaceLaminated:
		return "new, laminated"
	case boat.ReplaceStrap:
		return "new, a strap"
	case boat.Leave:
		return "left"
	case "":
		return "as measured"
	}
	return "not known"
}

// size of the level rectangle that is drawn round it, mm.
func (f DrawnFloor) size() (across, height float64) {
	if f.Outline != nil {
		return f.Outline.Across(), f.Outline.Height()
	}
	return f.Across, f.Height
}

// Draw is all floors on one sheet.
func (f Floors) Draw() Drawing {
	k := f.Sheet.look()
	list := &draw.List{Width: k.width, Title: "Floors of " + or(f.Sheet.Boat, "the boat")}
	t := foot{subject: "Floors, seen from aft", notation: f.Notation, units: unitsLine(f.Notation)}
	if len(f.Floors) == 0 {
		return empty(list, f.Sheet, k, t, "No floors were written down; there is nothing to draw.")
	}
	v := &floorView{look: k, Floors: f, list: list}
	y := v.put()
	t.key, t.notes = v.key(), v.remarks()
	list.Desc = fmt.Sprintf("%s in their own planes, seen from aft with port to the left, each with the smallest level rectangle round it. Their sizes stand in the table of the same name.", plural(len(f.Floors), "floor", "floors"))
	list.Height = math.Ceil(t.put(list, f.Sheet, k, y+line(k.text)))
	return Drawing{list, f.table()}
}

// table of the floors from forward.
func (f Floors) table() Table {
	t := Table{Caption: "Floors and the level rectangle round each at its moulding face, " + lengthUnit(f.Notation) + "; the angle at which the grain of one board, level, would cross an arm, in degrees",
		Head: []string{"Floor", "Done to it", "Across", "Height", "Grain across an arm", "Laminates", "Thickness of each"}}
	for _, d := range f.Floors {
		row := []string{strconv.Itoa(d.No), d.word(), missing, missing, missing, missing, missing}
		if a, h := d.size(); a > 0 {
			row[2], row[3] = shownMM(f.Notation, a), shownMM(f.Notation, h)
		}
		if d.Outline != nil {
			row[4] = strconv.FormatFloat(math.Round(d.Steepest*180/math.Pi), 'f', 0, 64)
			if d.Short {
				row[4] += ", short grain"
			}
		}
		if d.Laminates > 0 {
			row[5], row[6] = strconv.FormatInt(d.Laminates, 10), shownMM(f.Notation, d.Thick)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
