package api_test

import (
	"bytes"
	"encoding/json"
	"math"
	"net/http"
	"strings"
	"testing"
)

type planked struct {
	Surface []struct {
		Side   string
		AreaM2 struct{ Value, Low, High float64 } `json:"area_m2"`
		ByRule struct {
			Rule       string
			AreaM2     float64 `json:"area_m2"`
			DiffersPct float64 `json:"differs_pct"`
			SlantPct   float64 `json:"slant_pct"`
			RulePct    float64 `json:"rule_pct"`
			Because    string
		} `json:"by_rule"`
		VolumeM3     struct{ Value, Low, High float64 } `json:"volume_m3"`
		VolumeByRule struct {
			VolumeM3 float64 `json:"volume_m3"`
			Because  string
		} `json:"volume_by_rule"`
		ByTrapezoids struct {
			Rule       string
			AreaM2     float64 `json:"area_m2"`
			DiffersPct float64 `json:"differs_pct"`
			SlantPct   float64 `json:"slant_pct"`
		} `json:"by_trapezoids"`
		VolumeByTrapezoids struct {
			VolumeM3 float64 `json:"volume_m3"`
			Because  string
		} `json:"volume_by_trapezoids"`
		OutsideAreaM2 *struct{ Value, Low, High float64 } `json:"outside_area_m2"`
		Ends          []struct {
			End      string
			AreaM2   float64 `json:"area_m2"`
			VolumeM3 float64 `json:"volume_m3"`
			Caution  string
		}
		Centre   *placed
		WithEnds *struct {
			AreaM2   struct{ Value, Low, High float64 } `json:"area_m2"`
			VolumeM3 struct{ Value, Low, High float64 } `json:"volume_m3"`
		} `json:"with_ends"`
	}
	Zones []struct {
		Side       string
		AreaM2     float64 `json:"area_m2"`
		AreaLowM2  float64 `json:"area_low_m2"`
		AreaHighM2 float64 `json:"area_high_m2"`
		FromXMM    float64 `json:"from_x_mm"`
		ToXMM      float64 `json:"to_x_mm"`
	}
	Areas *struct {
		Sides []struct {
			BelowM2    float64 `json:"below_m2"`
			BelowLowM2 float64 `json:"below_low_m2"`
			AboveM2    float64 `json:"above_m2"`
			AboveHigh  float64 `json:"above_high_m2"`
			belowRanges
			WithEnds *struct {
				BelowM2  struct{ Value, Low, High float64 } `json:"below_m2"`
				AboveM2  struct{ Value, Low, High float64 } `json:"above_m2"`
				VolumeM3 struct{ Value, Low, High float64 } `json:"volume_m3"`
			} `json:"with_ends"`
		}
		belowRanges
		Centre     *placed
		PlaneX     *float64 `json:"waterplane_x_mm"`
		PlaneXLow  *float64 `json:"waterplane_x_low_mm"`
		PlaneXHigh *float64 `json:"waterplane_x_high_mm"`
		Cautions   []string
	}
	NotCounted []struct{ What, Because, Fix string } `json:"not_counted"`
}

// placed is a centre with its ranges.
type placed struct {
	XMM   float64 `json:"x_mm"`
	XLow  float64 `json:"x_low_mm"`
	XHigh float64 `json:"x_high_mm"`
	ZMM   float64 `json:"z_mm"`
	ZLow  float64 `json:"z_low_mm"`
	ZHigh float64 `json:"z_high_mm"`
}

// held says that the centre lies within its ranges, and not on their ends.
func (c *placed) held() bool {
	return c != nil && c.XLow < c.XMM && c.XMM < c.XHigh && c.ZLow < c.ZMM && c.ZMM < c.ZHigh
}

// belowRanges are volume and water plane below a waterline, of a side and of both.
type belowRanges struct {
	VolumeM3     float64  `json:"volume_m3"`
	VolumeLow    *float64 `json:"volume_low_m3"`
	VolumeHigh   *float64 `json:"volume_high_m3"`
	WaterplaneM2 float64  `json:"waterplane_m2"`
	PlaneLow     *float64 `json:"waterplane_low_m2"`
	PlaneHigh    *float64 `json:"waterplane_high_m2"`
}

// held says that both lie between the ends of their ranges, and not on one.
func (b belowRanges) held() bool {
	return b.VolumeLow != nil && b.VolumeHigh != nil && b.PlaneLow != nil && b.PlaneHigh != nil && *b.VolumeLow < b.VolumeM3 && b.VolumeM3 < *b.VolumeHigh &&
		*b.PlaneLow < b.WaterplaneM2 && b.WaterplaneM2 < *b.PlaneHigh
}

// The stored boat's planking: ranges hold their figures, the two parts make the difference, a waterline's parts make the
// whole, and the twin answers the same.
func TestPlankingOfAJob(t *testing.T) {
	const shown = 0.0021 // m² and per cent: what rounding to thousandths leaves of two or three figures
	d := open(t, file(t))
	got := d.get(d.job("hull", "measures") + "?waterline_mm=900").want(200)
	var m planked
	got.into(&m)
	if len(m.Surface) != 2 || m.Areas == nil || len(m.Areas.Sides) != 2 || len(m.NotCounted) != 2 {
		t.Fatalf("%s", got.body)
	}
	for i, s := range m.Surface {
		if !(0 < s.AreaM2.Low && s.AreaM2.Low < s.AreaM2.Value && s.AreaM2.Value < s.AreaM2.High && s.VolumeM3.Low < s.VolumeM3.Value && s.VolumeM3.Value < s.VolumeM3.High && s.Centre.held()) {
			t.Errorf("%+v", s)
		}
		if math.Abs(s.ByRule.RulePct-s.ByRule.SlantPct-s.ByRule.DiffersPct) > shown ||
			math.Abs(100*(s.ByRule.AreaM2/s.AreaM2.Value-1)-s.ByRule.DiffersPct) > 10*shown || s.ByRule.Rule == "" || !strings.Contains(s.ByRule.Because, "%") {
			t.Errorf("%+v", s.ByRule)
		}
		// A hull that is full amidships swells beyond straight lines from station to station.
		if tr := s.ByTrapezoids; tr.Rule != "trapezoidal rule" || !(tr.AreaM2 < s.ByRule.AreaM2) || tr.SlantPct != s.ByRule.SlantPct || !(tr.DiffersPct < s.ByRule.DiffersPct) ||
			!(s.VolumeByTrapezoids.VolumeM3 < s.VolumeByRule.VolumeM3) || !strings.Contains(s.VolumeByTrapezoids.Because, "the trapezoidal rule") {
			t.Errorf("%+v, %+v", tr, s.VolumeByTrapezoids)
		}
		w := m.Areas.Sides[i]
		if !(w.BelowLowM2 < w.BelowM2 && w.AboveM2 < w.AboveHigh && w.held()) {
			t.Errorf("%+v", w)
		}
		if w.BelowM2 <= 0 || math.Abs(w.BelowM2+w.AboveM2-s.AreaM2.Value) > shown {
			t.Errorf("%+v of %v", w, s.AreaM2.Value)
		}
		zones := 0.0
		for _, z := range m.Zones {
			if z.Side != s.Side {
				continue
			}
			if !(z.FromXMM < z.ToXMM && z.AreaM2 > 0) {
				t.Errorf("%+v", z)
			}
			zones += z.AreaM2
			if !(z.AreaLowM2 < z.AreaM2 && z.AreaM2 < z.AreaHighM2) {
				t.Errorf("a bay of %v m2 between %v and %v", z.AreaM2, z.AreaLowM2, z.AreaHighM2)
			}
		}
		if !(zones > 0.5*s.AreaM2.Value && zones < s.AreaM2.Value+0.05) {
			t.Errorf("bays of %v m² on a side of %v", zones, s.AreaM2.Value)
		}
	}
	if a := m.Areas; a.PlaneX == nil || a.PlaneXLow == nil || a.PlaneXHigh == nil || !(*a.PlaneXLow < *a.PlaneX && *a.PlaneX < *a.PlaneXHigh) {
		t.Errorf("the plane's centre: %+v", a)
	}
	if c := m.Areas.Centre; !c.held() || !(0 < c.ZMM && c.ZMM < 900) || m.Areas.VolumeM3 <= 0 || m.Areas.WaterplaneM2 <= 0 || !m.Areas.held() {
		t.Errorf("%+v", m.Areas)
	}
	body := map[string]json.RawMessage{"hull": d.document(d.job("hull")), "frames": d.document(d.job("frames"))}
	if twin := d.send(http.MethodPost, "/api/v1/hull/measure?waterline_mm=900", body).want(200); !bytes.Equal(got.body, twin.body) {
		t.Error("the twin's measures are not the stored route's")
	}
	m = planked{}
	d.get(d.job("hull", "measures") + "?waterline_mm=90000").want(200).into(&m)
	if len(m.Areas.Cautions) != 2 || m.Areas.WaterplaneM2 != 0 || *m.Areas.PlaneHigh != 0 || m.Areas.Sides[0].AboveM2 != 0 {
		t.Errorf("%+v", m.Areas)
	}
	m = planked{}
	d.get(d.job("hull", "measures") + "?waterline_mm=-50").want(200).into(&m)
	if len(m.Areas.Cautions) != 2 || m.Areas.Centre != nil || m.Areas.VolumeM3 != 0 || *m.Areas.VolumeLow != 0 || *m.Areas.VolumeHigh != 0 {
		t.Errorf("%+v", m.Areas)
	}
	d.get(d.job("hull", "measures")+"?waterline_mm=NaN").refused(400, "malformed-request")
}

// A boat without lines names what is missing and the measurement that would give it.
func TestPlankingWithoutLines(t *testing.T) {
	d := open(t, file(t))
	var m planked
	d.send(http.MethodPost, "/api/v1/hull/measure?waterline_mm=900", map[string]any{}).want(200).into(&m)
	if len(m.Surface) != 0 || m.Areas != nil || len(m.NotCounted) != 2 || !strings.Contains(m.NotCounted[0].Fix, "stations") {
		t.Errorf("%+v", m)
	}
}

// Lines of stem and transom give what lies beyond the end stations; a line of one place is named as not enough.
func TestPlankingBeyondTheStations(t *testing.T) {
	d := open(t, file(t))
	var lines map[string]any
	if err := json.Unmarshal(d.document(d.job("hull")), &lines); err != nil {
		t.Fatal(err)
	}
	lines["stem"] = []map[string]string{{"height": "1-0-0", "x": "-0-0-4"}, {"height": "6-0-0", "x": "-1-6-0"}}
	var stations struct{ Stations []struct{ X string } }
	if err := json.Unmarshal(d.document(d.job("hull")), &stations); err != nil {
		t.Fatal(err)
	}
	lines["transom"] = []map[string]string{{"height": "6-0-0", "x": stations.Stations[len(stations.Stations)-1].X}}
	var m planked
	d.send(http.MethodPost, "/api/v1/hull/measure?waterline_mm=900", map[string]any{"hull": lines}).want(200).into(&m)
	const shown = 0.0021 // m² and m³: what rounding to thousandths leaves of three figures
	for i, s := range m.Surface {
		if len(s.Ends) != 1 || s.Ends[0].End != "stem" || !(s.Ends[0].AreaM2 > 0 && s.Ends[0].AreaM2 < s.AreaM2.Value/4) {
			t.Errorf("%+v", s.Ends)
		}
		w, cut := s.WithEnds, m.Areas.Sides[i].WithEnds
		if w == nil || cut == nil {
			t.Fatalf("no figures with ends: %+v", s)
		}
		if math.Abs(w.AreaM2.Value-s.AreaM2.Value-s.Ends[0].AreaM2) > shown || math.Abs(w.VolumeM3.Value-s.VolumeM3.Value-s.Ends[0].VolumeM3) > shown ||
			w.AreaM2.High-w.AreaM2.Low <= s.AreaM2.High-s.AreaM2.Low {
			t.Errorf("%+v of %+v and %+v", w, s.AreaM2, s.Ends)
		}
		below := m.Areas.Sides[i].BelowM2
		if math.Abs(cut.BelowM2.Value+cut.AboveM2.Value-w.AreaM2.Value) > shown || cut.BelowM2.Value < below ||
			!(cut.BelowM2.Low < cut.BelowM2.Value && cut.AboveM2.High > cut.AboveM2.Value && cut.VolumeM3.High > cut.VolumeM3.Low) {
			t.Errorf("%+v of %+v", cut, w)
		}
		if s.OutsideAreaM2 != nil {
			t.Errorf("an outside of planks of no thickness: %+v", s.OutsideAreaM2)
		}
	}
	if len(m.NotCounted) != 1 || !strings.Contains(m.NotCounted[0].Because, "fewer than two places") || !strings.Contains(m.NotCounted[0].Fix, "transom") {
		t.Errorf("%+v", m.NotCounted)
	}
}

// Where the table gives the plank's thickness the outside is told: more than the inside on a boat that is mostly round, and
// the more so the thicker she is planked.
func TestOutsideOfPlank(t *testing.T) {
	d := open(t, file(t))
	var lines map[string]any
	if err := json.Unmarshal(d.document(d.job("hull")), &lines); err != nil {
		t.Fatal(err)
	}
	more := 0.0
	for _, thick := range []string{"0-1-0", "0-2-0"} {
		lines["plank_thickness"] = thick
		var m planked
		d.send(http.MethodPost, "/api/v1/hull/measure", map[string]any{"hull": lines}).want(200).into(&m)
		for _, s := range m.Surface {
			if s.WithEnds != nil || s.OutsideAreaM2 == nil || !(s.OutsideAreaM2.Low < s.OutsideAreaM2.Value && s.OutsideAreaM2.Value < s.OutsideAreaM2.High) {
				t.Fatalf("%s planked: %+v", thick, s)
			}
		}
		by := m.Surface[0].OutsideAreaM2.Value - m.Surface[0].AreaM2.Value
		if by < 1.5*more || by <= 0.01 || by > 0.1*m.Surface[0].AreaM2.Value {
			t.Errorf("%s planked the outside is greater by %v m²", thick, by)
		}
		more = by
	}
}
