package api

import "strings"

// Route is a route as the tests compare it with the contract.
type Route struct {
	Method, Path string
	Roles, Query []string
}

// Routes is every operation that the server has, its path written as the contract writes it.
func Routes() []Route {
	var out []Route
	for _, r := range routes {
		parts := strings.Split(r.path, "/")
		for i, p := range parts {
			if name, is := strings.CutPrefix(p, ":"); is {
				parts[i] = "{" + name + "}"
			}
		}
		x := Route{Method: r.method, Path: strings.Join(parts, "/"), Query: r.query}
		for _, role := range r.roles {
			x.Roles = append(x.Roles, string(role))
		}
		if len(x.Roles) == 0 {
			x.Roles = []string{"anonymous"}
		}
		out = append(out, x)
	}
	return out
}

// ProblemTypes is the type of every problem there is.
func ProblemTypes() []string {
	var out []string
	for _, c := range classes {
		out = append(out, problemPrefix+c.name)
	}
	return out
}
