package drawing

import (
	"slices"

	"ribband/takeoff/draw"
)

// label is a short text that wants to stand at a place along a row.
type label struct {
	text string
	of   string
	at   float64 // wanted, and then given, middle
	from float64 // where its leader begins, across the row
}

// gap that is kept between two labels, as a part of the type's body.
const gap = 0.35

func (l label) width(size float64) float64 { return draw.TextWidth(l.text, size, false) + gap*size }

// spread moves labels of one row apart until none overlaps, as little as can be (least squares), within low and
// high. Labels come in the order of their places and keep it. It reports false, and moves nothing, where they do not
// fit in at all.
func spread(labels []label, size, low, high float64) bool {
	total := 0.0
	for _, l := range labels {
		total += l.width(size)
	}
	if total > high-low {
		return false
	}
	// With the widths before each label taken off, "none overlaps" becomes "none decreases": isotonic regression,
	// by pooling adjacent violators.
	type pool struct {
		mean  float64
		count int
	}
	var pools []pool
	before := 0.0
	for _, l := range labels {
		w := l.width(size)
		pools = append(pools, pool{l.at - before - w/2, 1})
		before += w
		for n := len(pools); n > 1 && pools[n-1].mean < pools[n-2].mean; n = len(pools) {
			a, b := pools[n-2], pools[n-1]
			sum := a.mean*float64(a.count) + b.mean*float64(b.count)
			pools = append(pools[:n-2], pool{sum / float64(a.count+b.count), a.count + b.count})
		}
	}
	i, before := 0, 0.0
	for _, p := range pools {
		start := min(max(p.mean, low), high-total)
		for range p.count {
			w := labels[i].width(size)
			labels[i].at = start + before + w/2
			before += w
			i++
		}
	}
	return true
}

// thinned is the labels that may stay when each must stand exactly at its place: all, or every second, third, fifth
// and so on, so that no two overlap. The first stays.
func thinned(labels []label, size float64) []label {
	for _, step := range []int{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 50, 100} {
		var kept []label
		for i := 0; i < len(labels); i += step {
			kept = append(kept, labels[i])
		}
		if apart(kept, size) {
			return kept
		}
	}
	return labels[:min(1, len(labels))]
}

// apart reports whether labels in the order of their places, rising or falling, do not overlap.
func apart(labels []label, size float64) bool {
	for i := 1; i < len(labels); i++ {
		d := labels[i].at - labels[i-1].at
		if max(d, -d) < (labels[i].width(size)+labels[i-1].width(size))/2 {
			return false
		}
	}
	return true
}

// tower is labels one above another: thinned so that their lines do not run into each other.
func tower(labels []label, size float64) []label {
	slices.SortStableFunc(labels, func(a, b label) int {
		switch {
		case a.at > b.at: // from the lowest up: Y runs down
			return -1
		case a.at < b.at:
			return 1
		}
		return 0
	})
	for step := 1; step < len(labels); step++ {
		sound := true
		for i := step; i < len(labels); i += step {
			sound = sound && labels[i-step].at-labels[i].at >= size*1.1
		}
		if sound {
			var kept []label
			for i := 0; i < len(labels); i += step {
				kept = append(kept, labels[i])
			}
			return kept
		}
	}
	return labels[:min(1, len(labels))]
}
