package bend

// Note is something to be known before bending, with its source.
type Note struct {
	Text   string `json:"text"`
	Source string `json:"source"`
}

// Stock is how damp stock for bending in steam should be.
func Stock() Note {
	return Note{"Stock for bending is air-dried and straight in the grain: about 16 % moisture for easy bends, 23 to 25 % for severe ones; what was dried in a kiln bends worse.",
		"16 %, 23 to 25 %: E. M. Wengert, Steam Bending and Wood, undated, as shown at woodweb.com; air-dried, straight and kiln: common practice, no source"}
}

// Cautions of bending in steam.
func Cautions() []Note {
	const practice = "common practice, no source"
	return []Note{
		{"Steam scalds and is not seen where it is hottest: gloves to the elbow, face and arms away from the door when it is opened.", practice},
		{"A box that cannot breathe bursts: leave a vent open, never tie its door down tight, and never let the boiler run dry.", practice},
		{"A boiler's flame or element stands away from fuel, gas bottles, solvents and shavings, never in or under the boat, with an extinguisher at hand and somebody who stays.", practice},
		{"A bent piece holds a load: stand out of its way, and out of the strap's, until it is clamped.", practice},
		{"A boiler under pressure is a matter for those licensed for it; where local codes ask for more, theirs is what counts.", practice},
	}
}
