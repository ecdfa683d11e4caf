package quote

import (
	"fmt"
	"slices"
	"strings"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
)

// SameCurrency refuses a sheet that is not in the job's currency, with a *CurrencyError.
func SameCurrency(job money.Currency, c sheet.Content) error {
	if job != c.Currency {
		return &CurrencyError{string(job), string(c.Currency)}
	}
	return nil
}

// Missing is everything that the options need and the sheet has no price for, materials and trades, each once.
func Missing(options []OptionInput, c sheet.Content, shop buy.Rules) ([]sheet.Missing, error) {
	var all []sheet.Missing
	for _, o := range options {
		m, err := buy.Missing(o.Needs, c, o.shop(shop))
		if err != nil {
			return nil, &OptionError{o.ID, o.Name, err}
		}
		all = append(all, m...)
	}
	return merge(append(all, missingTrades(options, c)...)), nil
}

func missingTrades(options []OptionInput, c sheet.Content) []sheet.Missing {
	var out []sheet.Missing
	for _, o := range options {
		for _, w := range o.Work {
			if _, ok := c.Labour(w.Trade); ok {
				continue
			}
			out = append(out, sheet.Missing{Kind: sheet.Labour, Item: w.Trade, Unit: "HUR", For: []string{w.Code},
				Fix: fmt.Sprintf("a row with item %s, kind labour, unit HUR, is needed", w.Trade)})
		}
	}
	return merge(out)
}

// merge puts entries that ask for the same row together.
func merge(all []sheet.Missing) []sheet.Missing {
	var out []sheet.Missing
	at := map[string]int{}
	for _, m := range all {
		key := strings.ToLower(string(m.Kind) + "\x00" + m.Item + "\x00" + m.Fix)
		i, ok := at[key]
		if !ok {
			at[key] = len(out)
			m.For = slices.Clone(m.For)
			out = append(out, m)
			continue
		}
		for _, f := range m.For {
			if !slices.Contains(out[i].For, f) {
				out[i].For = append(out[i].For, f)
			}
		}
	}
	return out
}

// together checks that every need has its share in the buy list, in the sheet's currency.
func together(options []OptionInput, c sheet.Content) error {
	if !c.Currency.Known() {
		return &BasisError{(&money.CurrencyError{Code: c.Currency}).Error()}
	}
	if len(options) == 0 {
		return &BasisError{"a quote covers one option at least"}
	}
	ids := map[string]bool{}
	for _, o := range options {
		if ids[o.ID] {
			return &BasisError{fmt.Sprintf("option %s stands twice", o.ID)}
		}
		ids[o.ID] = true
		if o.Buy.Currency != c.Currency {
			return &BasisError{fmt.Sprintf("the buy list of option %s is in %s and the sheet in %s", o.Name, o.Buy.Currency, c.Currency)}
		}
		needs := slices.Concat(o.Needs, o.Buy.Added)
		if len(o.Buy.Shares) != len(needs) {
			return &BasisError{fmt.Sprintf("the buy list of option %s serves %d needs of %d", o.Name, len(o.Buy.Shares), len(needs))}
		}
		for i, s := range o.Buy.Shares {
			if s.Line != needs[i].ID {
				return &BasisError{fmt.Sprintf("the buy list of option %s is not that of its needs: %s stands for %s", o.Name, s.Line, needs[i].ID)}
			}
		}
	}
	return nil
}
