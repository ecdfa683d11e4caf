package api_test

import "net/http"

// prices are the items of a version of a sheet as a body holds them.
type prices struct {
	Currency string           `json:"currency"`
	Notation string           `json:"notation"`
	Items    []map[string]any `json:"items"`
}

// priced is where the versions of the demo's sheet are, and what the newest of them says.
func (d *desk) priced() (at string, newest prices) {
	at = "/api/v1/price-sheets/" + d.demo.Sheet + "/versions/"
	d.get(at + "2").want(200).into(&newest)
	return at, newest
}

// with is the prices with these items in place of theirs.
func (p prices) with(items ...map[string]any) prices {
	p.Items = items
	return p
}

// stands puts and publishes a version.
func (d *desk) stands(at string, p prices) {
	d.send(http.MethodPut, at, p, firstPut).want(201)
	d.send(http.MethodPost, at+"/publish", nil, d.key()).want(200)
}
