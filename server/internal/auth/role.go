package auth

import "slices"

// Role is what a token lets its holder do; what that is stands with each route.
type Role string

// The roles. Lead and estimator read and write, the accountant reads all and
// writes spend and publishes price sheets, the owner sees the issued revisions of
// the one job the token is bound to.
const (
	Lead       Role = "lead"
	Estimator  Role = "estimator"
	Accountant Role = "accountant"
	Owner      Role = "owner"
)

// Roles lists all roles, the widest first.
func Roles() []Role { return []Role{Lead, Estimator, Accountant, Owner} }

// Known tells whether this is one of the roles.
func (r Role) Known() bool { return slices.Contains(Roles(), r) }
