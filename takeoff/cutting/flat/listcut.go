package flat

// listCuts gives the layouts of sheets for a gap; false when they are more than most. Only layouts to which no further
// strip can be added are listed.
func (s *search) listCuts(gap float64, most int) ([]cut, bool) {
	y := s.lp.Duals(0)
	var found []cut
	steps := 0
	for i, f := range s.forms {
		if s.stock[f.stock].Roll() {
			continue
		}
		levels := s.lays[s.groups[f.group].lay].levels
		price := -y[len(s.classes)+f.stock]
		slot := func(level int) float64 { return max(0, -y[s.base[f.group]+level]) }
		var slots []pick
		var walk func(level int, room int64, worth float64, tight int64) bool
		walk = func(level int, room int64, worth float64, tight int64) bool {
			steps++
			if steps > 200*most || len(found) > most {
				return false
			}
			for level >= 0 && levels[level] > room {
				level--
			}
			if level < 0 {
				if room < tight && price-worth <= gap && len(slots) > 0 {
					found = append(found, cut{i, append([]pick{}, slots...)})
				}
				return true
			}
			rate := 0.0
			for j := level; j >= 0; j-- {
				rate = max(rate, slot(j)/float64(levels[j]))
			}
			if price-worth-float64(rate*float64(room)) > gap {
				return true
			}
			depth := len(slots)
			most := room / levels[level]
			for n := most; n >= 0; n-- {
				slots = slots[:depth]
				t := tight
				if n > 0 {
					slots = append(slots, pick{level, n})
				}
				if n < most {
					t = min(t, levels[level])
				}
				if !walk(level-1, room-n*levels[level], worth+float64(float64(n)*slot(level)), t) {
					return false
				}
			}
			slots = slots[:depth]
			return true
		}
		if !walk(len(levels)-1, f.deep, 0, f.deep+1) {
			return found, false
		}
	}
	return found, true
}
