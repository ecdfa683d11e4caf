// Package auth says who is asking. A caller brings a bearer token; the token
// stands for one role in one yard, for an owner in one job.
//
// A token is 256 bits from the system's random source, written with a short prefix
// so that people and scanners recognise it. Only its SHA-256 is kept: whoever
// reads the database cannot use what is in it, and a lost token cannot be shown
// again, only replaced. (A slow password hash would add nothing: 256 random bits
// cannot be guessed.) Tokens are revoked at once and may expire.
//
// An unknown, a revoked and an expired token are refused alike; only the log learns
// which it was.
package auth
