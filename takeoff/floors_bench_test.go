package takeoff_test

import (
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/floor"
	"ribband/takeoff/frame"
)

// BenchmarkFloors is the takeoff of the demo boat with all frames replaced and a floor at each, beside the same without
// floors.
func BenchmarkFloors(b *testing.B) {
	basis := demoBasis(b, 1)
	with := basis
	with.Remedies = map[boat.Member]frame.Choice{}
	for m, c := range basis.Remedies {
		with.Remedies[m] = c
	}
	for no := 1; no <= 34; no++ {
		reach := floor.Reach{Girth: dec("300")}
		f := floor.Floor{No: no, Stands: floor.Aft, Siding: dec("44"), Depth: dec("100"), ArmEnd: dec("30"), Port: reach, Starboard: reach}
		with.Floors = append(with.Floors, f)
		with.Remedies[f.Member()] = frame.Choice{Remedy: boat.ReplaceSawn, Species: "white_oak", Grade: "FAS"}
	}
	for _, c := range []struct {
		name string
		of   takeoff.Basis
	}{{"without", basis}, {"with", with}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := takeoff.Run(c.of); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
