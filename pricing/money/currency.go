package money

import "fmt"

// Currency is the ISO 4217 code of a currency in use: "USD". The empty Currency belongs to no amount.
type Currency string

// CurrencyError: a code that is not the code of a currency in use.
type CurrencyError struct{ Code Currency }

func (e *CurrencyError) Error() string {
	shown := string(e.Code)
	if len(shown) > 12 {
		shown = shown[:12]
	}
	return fmt.Sprintf("currency %q is not known: three capital letters of ISO 4217 are needed, for example USD", shown)
}

// Known reports whether c is the code of a currency in use.
func (c Currency) Known() bool { _, ok := minorDigits[c]; return ok }

// Digits is how many decimal places the currency's smallest unit has: 2 for USD, 0 for JPY, 3 for KWD. It is 0 for
// an unknown code; ask Known first.
func (c Currency) Digits() int32 { return minorDigits[c] }

// minorDigits: the currencies in use and the places of their minor unit.
//
// Source: ISO 4217, from memory (the list was not at hand). The digits are those of the standard, not of software
// locales, which differ for COP, IQD and MGA. Precious metals, funds without places and test codes are left out:
// nothing in a yard is priced in them.
var minorDigits = func() map[Currency]int32 {
	byDigits := map[int32][]Currency{
		0: {"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV", "XAF",
			"XOF", "XPF"},
		2: {"AED", "AFN", "ALL", "AMD", "AOA", "ARS", "AUD", "AWG", "AZN", "BAM", "BBD", "BDT", "BGN", "BMD", "BND",
			"BOB", "BOV", "BRL", "BSD", "BTN", "BWP", "BYN", "BZD", "CAD", "CDF", "CHE", "CHF", "CHW", "CNY", "COP",
			"COU", "CRC", "CUP", "CVE", "CZK", "DKK", "DOP", "DZD", "EGP", "ERN", "ETB", "EUR", "FJD", "FKP", "GBP",
			"GEL", "GHS", "GIP", "GMD", "GTQ", "GYD", "HKD", "HNL", "HTG", "HUF", "IDR", "ILS", "INR", "IRR", "JMD",
			"KES", "KGS", "KHR", "KPW", "KYD", "KZT", "LAK", "LBP", "LKR", "LRD", "LSL", "MAD", "MDL", "MGA", "MKD",
			"MMK", "MNT", "MOP", "MRU", "MUR", "MVR", "MWK", "MXN", "MXV", "MYR", "MZN", "NAD", "NGN", "NIO", "NOK",
			"NPR", "NZD", "PAB", "PEN", "PGK", "PHP", "PKR", "PLN", "QAR", "RON", "RSD", "RUB", "SAR", "SBD", "SCR",
			"SDG", "SEK", "SGD", "SHP", "SLE", "SOS", "SRD", "SSP", "STN", "SVC", "SYP", "SZL", "THB", "TJS", "TMT",
			"TOP", "TRY", "TTD", "TWD", "TZS", "UAH", "USD", "USN", "UYU", "UZS", "VED", "VES", "WST", "XCD", "XCG",
			"YER", "ZAR", "ZMW", "ZWG"},
		3: {"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"},
		4: {"CLF", "UYW"},
	}
	table := map[Currency]int32{}
	for digits, codes := range byDigits {
		for _, c := range codes {
			table[c] = digits
		}
	}
	return table
}()
