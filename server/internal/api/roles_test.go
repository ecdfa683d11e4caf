package api_test

import (
	"net/http"
	"slices"
	"testing"

	"ribband/server/internal/auth"
)

// Every operation against everybody: who has no token or a revoked one gets 401, a role that x-roles does not name
// 403, and one that it names gets past both. An owner of another job finds nothing of this one.
func TestEveryOperationForEveryRole(t *testing.T) {
	d := open(t, file(t))
	stranger := d.ownerOfAnother()
	revoked := d.revoked()
	for _, op := range operations(t) {
		t.Run(op.OperationID, func(t *testing.T) {
			d := d.on(t)
			ids, allowed := d.ids(op), rolesOf(t, op)
			path := op.at(ids, "")
			if op.anybody(t) {
				d.with("").send(op.method, path, nil).want(200)
				return
			}
			d.with("").send(op.method, path, nil).refused(401, "token-missing")
			d.with("rbd_nobody").send(op.method, path, nil).refused(401, "token-missing")
			d.with(revoked).send(op.method, path, nil).refused(401, "token-missing")
			for _, role := range roles {
				a := d.role(role).send(op.method, path, nil)
				if !slices.Contains(allowed, string(role)) {
					a.refused(403, "role-not-allowed")
				} else if a.status == 401 || a.status == 403 {
					t.Errorf("%s is refused with %d: %s", role, a.status, a.body)
				}
			}
			if slices.Contains(allowed, string(auth.Owner)) {
				s := d.sample(op)
				op.ask(d.with(stranger), s, ids, "").refused(404, "not-found")
				if a := op.ask(d.role(auth.Owner), s, ids, ""); a.status != 200 && a.status != 409 || a.status == 409 && op.method == http.MethodGet {
					t.Errorf("the owner gets %d: %s", a.status, a.body)
				}
			}
		})
	}
}

// ownerOfAnother is a token of an owner bound to a job of its own.
func (d *desk) ownerOfAnother() string {
	d.t.Helper()
	var job struct{ ID string }
	d.send(http.MethodPost, "/api/v1/jobs", jobFields(), d.key()).want(201).into(&job)
	return d.token(map[string]any{"name": "another owner", "role": "owner", "job": job.ID}).Text
}

type token struct{ ID, Text string }

func (d *desk) token(fields map[string]any) token {
	d.t.Helper()
	var made token
	d.send(http.MethodPost, "/api/v1/tokens", fields, d.key()).want(201).into(&made)
	return made
}

func (d *desk) revoked() string {
	d.t.Helper()
	made := d.token(map[string]any{"name": "left the yard", "role": "lead"})
	d.with(made.Text).get("/api/v1/jobs").want(200)
	d.send(http.MethodDelete, "/api/v1/tokens/"+made.ID, nil).want(204)
	d.send(http.MethodDelete, "/api/v1/tokens/"+made.ID, nil).want(204)
	return made.Text
}
