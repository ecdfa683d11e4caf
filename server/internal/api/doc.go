// Package api is the HTTP face of the service: it turns requests into calls of the app and what comes back into
// answers that hold to openapi.yaml.
//
// One table, routes.go, says every operation with its roles and its query parameters; one table, problem.go, says
// which error is which problem. Bodies are read by decode.go alone, which refuses what it does not know and reports
// everything at once. A handler reads, calls the app and answers; it decides nothing about boats or money.
package api
