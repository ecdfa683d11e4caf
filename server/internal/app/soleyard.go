package app

import "context"

// SoleYard is who the yard is where the database has only one, so that a page for whoever it may be can say whom to
// ask; false where there is none, or more than one.
func (a *App) SoleYard(ctx context.Context) (Letterhead, bool, error) {
	all, err := a.store.Yards(ctx)
	if err != nil || len(all) != 1 {
		return Letterhead{}, false, err
	}
	l, _, err := a.letterhead(ctx, all[0].ID)
	return l, err == nil, err
}
