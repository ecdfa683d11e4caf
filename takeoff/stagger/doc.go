// Package stagger says where laminates that are longer than the stock are joined, so that no joint lies near one in a
// neighbouring laminate, nor where the yard wants none.
//
// A blank of n laminates is joined by sets of places that repeat: where joints are kept apart across so many laminates,
// one set more than that does for all, laid by turns. No two joints of the sets lie nearer than the rule says, so along
// the blank they come one after another, and it never helps to give the next joint to any but the set whose last one lies
// farthest back: two sets may change places beyond any joint. So joint i belongs to set i mod M, and what is asked for is
// the fewest places z(0) < z(1) < ... with
//
//	z(i+1) - z(i) >= D    joints apart
//	z(i+M) - z(i) <= P    a length between two joints is no longer than the stock
//
// first and last ones within the stock of the ends, and none in a barred stretch. Each bound pulls a place towards the
// heel and never the other way, so the greatest places that keep to all of them are found by pulling until nothing moves;
// where those do not reach the far end, no places do. All lengths are whole nanometres: integers decide.
package stagger
