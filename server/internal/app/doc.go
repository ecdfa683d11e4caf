// Package app is what the service does: one file for each resource, each use case one method that reads, checks,
// lets the pure packages compute, and writes in one transaction.
//
// It knows who is asking but nothing of HTTP, and it asks the store for records but writes no SQL. Its errors are
// typed; what they become outside is the api's business.
package app
