package web

// word is a word of the trade with what it means, for readers who build no boats. Forms are the ways it is written.
type word struct {
	forms []string
	means string
	// covers are words that this one explains along with itself.
	covers []string
	// in are phrases of which the word has to be a part for this to be what it means; whole says that it has to be
	// the whole text, such as the name of a step. With neither it means this wherever nothing else is said.
	in    []string
	whole bool
}

// bound reports whether a word has this meaning only in some places.
func (w word) bound() bool { return w.whole || len(w.in) > 0 }

// words that an owner meets. No meaning uses a word that is itself to be explained. Common practice of the trade, no
// source.
var words = []word{
	// The boat.
	{forms: []string{"pairs of frames", "pair of frames"}, means: "ribs of the boat, two and two, one on each side", covers: []string{"frames", "pairs"}},
	{forms: []string{"frames", "frame"}, means: "the ribs of the boat, on each side one, which give her shape and hold the boards of her skin"},
	{forms: []string{"pairs", "pair"}, means: "two ribs of the boat that face each other, one on each side"},
	{forms: []string{"amidships"}, means: "in the middle of her length"},
	{forms: []string{"bow"}, means: "her front end"},
	{forms: []string{"port"}, means: "her left side, for somebody looking forward"},
	{forms: []string{"starboard"}, means: "her right side, for somebody looking forward"},
	{forms: []string{"hull"}, means: "the body of the boat"},
	{forms: []string{"planks", "plank", "planking"}, means: "the boards of the boat's skin"},
	{forms: []string{"floors", "floor"}, means: "the timbers across the bottom that join the two sides"},
	{forms: []string{"keel bolts"}, means: "the bolts that hold on the long timber under the boat", covers: []string{"keel"}},
	{forms: []string{"keel"}, means: "the long timber under the boat that all else is built upon"},
	{forms: []string{"backbone"}, means: "the long timbers under the boat and up her two ends"},
	{forms: []string{"bilge"}, means: "the lowest space inside the boat"},
	{forms: []string{"ceiling"}, means: "the boards that line the boat inside"},
	{forms: []string{"joinery"}, means: "the furniture built into the boat"},
	{forms: []string{"garboard"}, means: "the lowest board of the skin"},
	{forms: []string{"strake", "strakes"}, means: "one run of boards of the skin from end to end of the boat"},
	{forms: []string{"rabbet"}, means: "the groove that the edge of the lowest board of the skin fits in"},
	{forms: []string{"sheer"}, means: "the upper edge of the boat's side"},
	{forms: []string{"girth"}, means: "the length of a rib along its curve"},
	{forms: []string{"station"}, means: "a place along the boat where her shape was measured"},
	{forms: []string{"stands"}, in: []string{"its stands", "her stands", "the stands"}, means: "the supports that the boat rests on ashore"},
	{forms: []string{"sagged"}, means: "gone down out of its shape"},
	{forms: []string{"survey"}, means: "the report of whoever looked the boat over"},
	{forms: []string{"surveyor"}, means: "one who looks boats over and reports"},
	{forms: []string{"found work"}, means: "work that shows itself only when the boat is opened"},

	// What is done, and with what.
	{forms: []string{"glued up"}, means: "made of thin strips of wood, bent and glued together over a form"},
	{forms: []string{"laminated"}, means: "made of thin strips of wood, bent and glued together"},
	{forms: []string{"laminate"}, whole: true, means: "to glue thin strips of wood together, bent over a form, so that they make one rib"},
	{forms: []string{"laminate"}, in: []string{"nitrile or laminate", "gloves of laminate"}, means: "a film of several layers that the glue does not get through"},
	{forms: []string{"laminate", "laminates"}, means: "one of the thin strips of wood that a rib is glued together of"},
	{forms: []string{"bent in steam"}, means: "made soft in hot steam and bent while hot"},
	{forms: []string{"steamed"}, means: "made soft in hot steam, to be bent while hot"},
	{forms: []string{"steam box"}, means: "a long box of hot steam that wood is made soft in"},
	{forms: []string{"nitrile"}, means: "a rubber that oils and glues do not get through"},
	{forms: []string{"glue line"}, means: "the thin layer of glue between two pieces of wood"},
	{forms: []string{"pattern", "patterns"}, means: "a thin board cut to the shape of one rib, so that the new one fits"},
	{forms: []string{"bevel"}, in: []string{"clean up and bevel", "to bevel"}, means: "to cut the slant on a rib that the boards of the skin lie flat on"},
	{forms: []string{"bevel", "bevels"}, means: "the slant on a rib that the boards of the skin lie flat on"},
	{forms: []string{"fasten", "fastened"}, means: "to hold wood to wood with screws, rivets or bolts"},
	{forms: []string{"fastening", "fastenings"}, means: "the screws, rivets or bolts that hold wood to wood"},
	{forms: []string{"bungs", "bung"}, means: "wooden plugs over the heads of screws and bolts"},
	{forms: []string{"bedding"}, means: "the soft paste in a joint that keeps water out"},
	{forms: []string{"rip"}, means: "to saw a board lengthwise"},
	{forms: []string{"plane"}, in: []string{"rip and plane", "to plane", "saw, plane"}, means: "to shave a board smooth and to an even thickness"},
	{forms: []string{"plane", "planes"}, means: "a tool that shaves wood smooth"},
	{forms: []string{"shore"}, in: []string{"shore the", "shore her", "shore it", "shore and"}, means: "to prop from outside, so that the boat keeps her shape"},
	{forms: []string{"shore", "shores"}, means: "props that hold the boat in shape while parts are out"},
	{forms: []string{"spile"}, means: "to measure on the boat what shape a board of the skin has to have, and mark it out"},
	{forms: []string{"back out"}, means: "to hollow the inner face of a board of the skin, so that it lies on the ribs"},
	{forms: []string{"butt block", "butt blocks"}, means: "a short piece of wood behind the joint where two boards of the skin meet end to end"},
	{forms: []string{"seams", "seam"}, means: "the gaps between the boards of the skin, which are packed tight"},
	{forms: []string{"paying"}, means: "filling over the packing in the gaps between the boards of the skin"},
	{forms: []string{"brace"}, means: "to tie across, so that nothing moves"},
	{forms: []string{"scarf"}, in: []string{"scarf in"}, means: "to set a new piece in with a long slanting joint"},
	{forms: []string{"scarf"}, means: "a long slanting joint that makes one piece of two"},
	{forms: []string{"sister"}, means: "a new rib beside the old one"},
	{forms: []string{"caulk"}, means: "to close the gaps between the boards of the skin"},
	{forms: []string{"caulking"}, means: "what closes the gaps between the boards of the skin"},
	{forms: []string{"oakum"}, means: "tarred fibre that is driven into the gaps between the boards of the skin"},
	{forms: []string{"epoxy"}, means: "a glue mixed of two parts"},
	{forms: []string{"cured"}, means: "hardened right through"},
	{forms: []string{"cure"}, means: "the hardening of the glue"},
	{forms: []string{"sensitises"}, means: "makes the body react to it, a little at first and then ever more"},
	{forms: []string{"sanding"}, in: []string{"sanding dust"}, means: "from rubbing smooth with grit"},
	{forms: []string{"sanding"}, means: "rubbing smooth with grit, which makes dust"},
	{forms: []string{"sand"}, in: []string{"sand only"}, means: "to rub smooth with grit"},
	{forms: []string{"extract"}, means: "to draw the dust off where it is made"},
	{forms: []string{"grade", "grades"}, means: "how good a board is, by its knots and faults"},
	{forms: []string{"FAS"}, means: "firsts and seconds, the best boards that mills sell"},
	{forms: []string{"board ft"}, means: "board feet: one is a square foot of wood an inch thick"},
	{forms: []string{"shipwright"}, means: "a carpenter who builds boats"},
	{forms: []string{"yard hand"}, means: "a helper in the yard"},
}
