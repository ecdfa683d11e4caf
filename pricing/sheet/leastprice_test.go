package sheet_test

import (
	"strings"
	"testing"

	"ribband/pricing/sheet"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// The price that a fault tells is enough, and a millionth less is not: by the piece, by measure, for more units than one, and where
// half the smallest coin is no whole millionth.
func TestTheLeastPriceIsOneAtWhichAPieceCosts(t *testing.T) {
	for row, least := range map[string]string{
		"tin,,metal,A,C62,%,,,,,,,,,,,\n":                                "0.005",
		"tin,,metal,A,C62,%,100,,,,,,,,,,\n":                             "0.5",
		"tin,,metal,A,C62,%,,7,,,,,,,,,\n":                               "0.000715",
		",,timber,A,BFT,%,,,white_oak,select,8/4,0-6-0,8-0-0,,,,\n":      "0.000625",
		",,timber,A,BFT,%,1000,,white_oak,select,8/4,0-6-0,12-0-0,,,,\n": "0.416667",
	} {
		at := func(price string) error {
			_, err := sheet.ReadCSV([]byte(header+strings.ReplaceAll(row, "%", price)), "USD", notation.FeetInchesEighths)
			return err
		}
		if err := at(least); err != nil {
			t.Errorf("at %s: %v", least, err)
		}
		less := decimal.RequireFromString(least).Sub(decimal.New(1, -6)).String()
		if err := at(less); err == nil || !strings.Contains(err.Error(), "at least "+least+",") {
			t.Errorf("at %s: %v does not tell %s", less, err, least)
		}
	}
}
