package app

import (
	"context"
	"slices"
	"time"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
)

// OptionFields is what people say about an option. Versions of the yard's knowledge that are left out are the newest
// when the option is made.
type OptionFields struct {
	Name string `json:"name"`
	// Scope says in plain sentences what is done, Undone what stays undone and what that means: the owner reads both.
	Scope    []string  `json:"scope,omitempty"`
	Undone   []string  `json:"undone,omitempty"`
	Versions *Versions `json:"versions,omitempty"`
}

// Versions of the yard's knowledge that an option is reckoned with; 0 stands for the newest.
type Versions struct {
	Species     int64 `json:"species,omitempty"`
	StepLibrary int64 `json:"step_library,omitempty"`
	Rules       int64 `json:"rules,omitempty"`
}

// Option is a named way to do the work, as it is kept.
type Option struct {
	ID        string    `json:"id"`
	N         int64     `json:"-"`
	Job       string    `json:"job"`
	Name      string    `json:"name"`
	Scope     []string  `json:"scope,omitempty"`
	Undone    []string  `json:"undone,omitempty"`
	Versions  Versions  `json:"versions"`
	CreatedAt time.Time `json:"created_at"`
}

// optionBody is what the columns do not hold.
type optionBody struct {
	Scope    []string `json:"scope,omitempty"`
	Undone   []string `json:"undone,omitempty"`
	Versions Versions `json:"versions"`
}

func optionOf(r store.Option) (Option, error) {
	body, err := stored[optionBody]("option", r.Body)
	return Option{r.ID, r.N, r.JobID, r.Name, body.Scope, body.Undone, body.Versions, r.CreatedAt}, err
}

// MakeOption adds an option to a job.
func (a *App) MakeOption(ctx context.Context, who auth.Principal, job string, key Key, fields OptionFields, reply Reply[Option]) (store.Answer, error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return store.Answer{}, err
	}
	var f document.Faults
	named(&f, "/name", fields.Name)
	sentences(&f, "/scope", fields.Scope)
	sentences(&f, "/undone", fields.Undone)
	answer, _, err := a.write(ctx, who, "make option", key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		versions, unknown, err := pinned(ctx, tx, fields.Versions)
		if err != nil {
			return store.Answer{}, err
		}
		if err := slices.Concat(f, unknown).Err(); err != nil {
			return store.Answer{}, err
		}
		body, err := encode("option", optionBody{fields.Scope, fields.Undone, versions})
		if err != nil {
			return store.Answer{}, err
		}
		added, err := tx.AddOption(ctx, store.Option{JobID: job, Name: fields.Name, Body: body})
		if err != nil {
			return store.Answer{}, err
		}
		option, err := optionOf(added)
		if err != nil {
			return store.Answer{}, err
		}
		return reply(option)
	})
	return answer, err
}

// pinned are the versions asked for, the newest where none is; a version that is not there is a fault.
func pinned(ctx context.Context, tx *store.Tx, asked *Versions) (out Versions, faults document.Faults, err error) {
	if asked != nil {
		out = *asked
	}
	for _, k := range []struct {
		kind, pointer string
		n             *int64
	}{
		{kindSpecies, "/versions/species", &out.Species},
		{kindSteps, "/versions/step_library", &out.StepLibrary},
		{kindRules, "/versions/rules", &out.Rules},
	} {
		newest, err := tx.Document(ctx, k.kind, yardOwn)
		if err != nil {
			return out, faults, err
		}
		if *k.n < 0 || *k.n > newest.N {
			faults.Add(k.pointer, "a published version, or the name left out for the newest", "version %d is not published; the newest is %d", *k.n, newest.N)
		}
		if *k.n == 0 {
			*k.n = newest.N
		}
	}
	return out, faults, nil
}

// mostSentences is how many an option's scope may have: owners read three.
const mostSentences = 20

func sentences(f *document.Faults, pointer string, list []string) {
	if len(list) > mostSentences {
		f.Add(pointer, "at most "+itoa(mostSentences)+" sentences", "%d are given", len(list))
	}
	for i, s := range list {
		short(f, pointer+"/"+itoa(i), s, longestText)
	}
}

// Option reads an option of a job.
func (a *App) Option(ctx context.Context, who auth.Principal, job, id string) (Option, error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Option{}, err
	}
	r, err := a.store.In(who.Yard).Option(ctx, id)
	if err != nil {
		return Option{}, err
	}
	if r.JobID != job {
		return Option{}, &store.NotFoundError{Kind: "option", ID: id}
	}
	return optionOf(r)
}

// Options lists a job's options.
func (a *App) Options(ctx context.Context, who auth.Principal, job string, page store.Page) (List[Option], error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return List[Option]{}, err
	}
	rs, err := a.store.In(who.Yard).Options(ctx, job, page)
	if err != nil {
		return List[Option]{}, err
	}
	return listed(rs, optionOf)
}
