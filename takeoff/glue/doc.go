// Package glue is what gluing up asks for: the area of glue, how much of each part is mixed for it, how long it works
// and holds in the shop as warm as it is, which blanks are spread and closed together, and the record kept of each.
//
// Amounts of glue are exact decimals with figures of their own. Times follow a power of the temperature and are
// floats until they cross into whole seconds: the time there is is rounded down and the time that is needed up, so
// that rounding never puts one blank too many into a batch.
package glue
