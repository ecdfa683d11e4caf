package glue

// Ask is one thing to be filled in while gluing up. Unit is empty for a word or a day.
type Ask struct {
	Code string `json:"code"`
	Text string `json:"text"`
	Unit string `json:"unit,omitempty"`
}

// Asks of every blank, and of every joint in the hull, in the order they come up (common practice, no source).
func Asks(where Place, trial bool) []Ask {
	warm := Ask{"shop_temperature", "Temperature of the shop", "C"}
	if where == Hull {
		warm = Ask{"hull_temperature", "Temperature of the hull at the joint", "C"}
	}
	out := []Ask{
		{"stock_moisture", "Moisture of the stock", "%"},
		{"hull_moisture", "Moisture of the hull where it goes", "%"},
		{"hours_since_planing", "Hours since planing", "h"},
		{"wiped", "Wiped, and with what", ""},
		warm,
		{"glue_batch", "Batch numbers of A and B", ""},
		{"mixed_at", "Mixed at", ""},
		{"last_clamp_at", "Last clamp at", ""},
		{"clamps_off", "Clamps off", ""},
		{"safe_to_load", "Safe to load from", ""},
		{"signed", "Name", ""},
	}
	if trial {
		out = append([]Ask{{"trial_block", "Trial block split: did the wood fail, or the glue line?", ""}}, out...)
	}
	return out
}

// Caution is something to read before gluing up, with its source.
type Caution struct {
	Text   string `json:"text"`
	Source string `json:"source"`
}

// Cautions with two-part glues.
func Cautions() []Caution {
	const practice = "common practice, no source"
	return []Caution{
		{"Uncured epoxy irritates the skin and can sensitise it and the airways for good: keep it off the skin, and stop at the first rash.", "Health and Safety Executive, research report RR079; CPWR and NIOSH, 2008"},
		{"Wear gloves of laminate or thick nitrile and change them when soiled; plain rubber lets it through.", "Health and Safety Executive, research report RR079"},
		{"Large pots heat up by themselves, set within minutes and may smoke or burn: mix small pots, and spread them out at once.", "several makers of epoxy, as shown on their pages; no standard"},
		{"Open the shop and draw the air off; wear a mask against dust when sanding what has not fully cured.", practice},
		{"Mix by the ratio on the pots, never by eye, and do not quicken glue with more hardener.", practice},
		{"Squeeze epoxy lines together, not dry: clamps only bring the laminates to lie on one another; other glues ask for the pressure on their sheets.", practice},
		{"Glue laminates dry and alike, about 8 to 12 % moisture: wood that dries out on the form afterwards pulls on its glue lines.", practice},
		{"Old wood in a bilge is wet, salty and oily: before a joint is glued to it cut back to clean wood, and let it dry until a meter shows what the glue takes.", practice},
		{"Read the maker's sheets of this glue; where they say otherwise they go before these lines.", practice},
	}
}
