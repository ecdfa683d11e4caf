package glue

// Apart says which blanks share no batch, and why.
func Apart() []Caution {
	const practice = "common practice, no source"
	return []Caution{
		{"A joint in the hull shares no batch with a blank on its form: the hull is as warm as it is, so that the glue works and holds for another time there, and a piece is let in only once it has come off its form and may carry load.", practice},
		{"Scarfs within laminates are glued on the bench, in batches of their own, before their blank is: bent round the form they carry load, so that the blank waits until they may.", practice},
		{"Blanks of different woods share a batch where the glue asks the same of both: nothing, or a trial block for the same reason. Else they are kept apart: where a trial block fails, only that batch is stopped; and wood that has to be made ready in its own way just before it is spread takes that out of the batch's working time.", practice},
		{"Each glue has batches of its own: two glues are two mixes, and work and hold for times of their own.", practice},
		{"A piece with two scarfs is glued at both in one go, and a sister along its whole length: what is closed cannot be opened again for the rest.", practice},
	}
}
