package offsets

// Limits of one table of offsets. They are far above any boat that one yard rebuilds by frames, and are checked
// before any work, so that a hostile or mistaken upload costs little.
//
// Assumption: all of them are the house's; use may move them.
const (
	MaxTableBytes = 4 << 20 // of a CSV
	MaxRows       = 20_000  // of a CSV below the header
	MaxRowBytes   = 8_000   // of one line of a CSV, which also bounds its columns
	MaxStations   = 200
	MaxMarks      = 100 // waterlines and buttocks in one entry of one station
	MaxDiagonals  = 50
	MaxProfile    = 200 // heights of a stem or a transom
	MaxSides      = 3   // entries at one station: port, starboard and both
	MaxFaults     = 1_000
)

// What a hull needs.
const (
	MinStations = 3 // on each side: a curve through two is a guess
	MinMarks    = 5 // points on a side, no two of them alike: below that no range can be stated
)

const (
	minSpacing = 1.0   // mm between stations; nearer ones are at one place
	maxGrain   = 50.0  // mm; nobody writes offsets to the nearest two inches
	maxPlank   = 300.0 // mm; a foot of plank is no boat's of one yard
)
