package strake

import (
	"math"

	"ribband/takeoff/hull"
)

// Backing is how deep the inner face of a plank of the given width is hollowed to lie on a section of the given
// curvature (1/mm): width² · curvature / 8, the usual form of the sagitta. A plank in a hollow is rounded as much.
func Backing(width, curvature float64) float64 { return width * width * math.Abs(curvature) / 8 }

// Thickness a board must have before it is backed out, for a plank of the given finished thickness.
func (f *Figures) Thickness(plank float64) float64 { return plank + f.Backing }

func curvature(j hull.Jet) float64 {
	v2 := j.Yu*j.Yu + j.Zu*j.Zu
	if v2 == 0 {
		return 0 // no girth, so no plank to hollow
	}
	return (j.Yu*j.Zuu - j.Zu*j.Yuu) / (v2 * math.Sqrt(v2))
}
