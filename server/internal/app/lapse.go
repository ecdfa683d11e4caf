package app

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"ribband/pricing/buy"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/step"
)

// wanted is the rows of a sheet that serve what is bought and worked, each once: those chosen, and those they were
// chosen from.
func wanted(c sheet.Content, lists []buy.List, work [][]step.Work) []sheet.Item {
	things := map[string]bool{}
	for _, l := range lists {
		for _, t := range l.Timber {
			things[string(sheet.Timber)+" "+buy.TimberItem(t.Species, t.Grade)] = true
		}
		for _, p := range l.Packs {
			things[string(p.Kind)+" "+p.Item] = true
		}
	}
	for _, w := range slices.Concat(work...) {
		things[string(sheet.Labour)+" "+w.Trade] = true
	}
	for _, l := range lists {
		for _, f := range l.Freight {
			things[string(sheet.Freight)+" "+f.Supplier] = true
		}
	}
	var out []sheet.Item
	for _, it := range c.Items {
		name := it.Item
		if it.Kind == sheet.Freight {
			name = it.Supplier
		}
		if it.Kind == sheet.Timber {
			name = buy.TimberItem(it.Species, it.Grade)
		}
		if things[string(it.Kind)+" "+name] {
			out = append(out, it)
		}
	}
	return out
}

// lapsed warns of prices that no longer hold on day.
func lapsed(rows []sheet.Item, day string) []bill.Warning {
	return byDay(rows, func(until string) (bill.Warning, bool) {
		return bill.Warning{Code: "price_lapsed", Detail: "held until " + until + ", and today is " + day + ": ",
			Fix: "ask for today's prices and put them on the next version"}, until < day
	})
}

// outlasted warns of prices that hold on day and end before an offer of that day does.
func outlasted(rows []sheet.Item, day, until string) []bill.Warning {
	return byDay(rows, func(last string) (bill.Warning, bool) {
		return bill.Warning{Code: "price_ends_first", Detail: "hold until " + last + ", and the offer until " + until + ": ",
			Fix: "let the offer end sooner (valid_days), or ask how long the prices hold"}, day <= last && last < until
	})
}

// byDay is one warning for every last day that say warns of, naming the rows whose day it is.
func byDay(rows []sheet.Item, say func(until string) (bill.Warning, bool)) []bill.Warning {
	labels := map[string][]string{}
	for _, it := range rows {
		if it.ValidUntil != "" {
			labels[it.ValidUntil] = append(labels[it.ValidUntil], it.Label())
		}
	}
	var out []bill.Warning
	for _, until := range slices.Sorted(maps.Keys(labels)) {
		if w, warns := say(until); warns {
			w.Detail = fmt.Sprintf("Prices %s%s.", w.Detail, strings.Join(labels[until], "; "))
			out = append(out, w)
		}
	}
	return out
}
