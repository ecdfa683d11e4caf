package api_test

import (
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"ribband/seed"
	"ribband/server/internal/auth"
)

type amount struct{ Amount decimal.Decimal }

type pair struct{ First, Second, Difference amount }

type optionDifference struct {
	Steps []struct {
		Step  string
		Lines []struct {
			Key   string
			Price pair
		}
		Price pair
	}
	Net, Tax, Total pair
}

type side struct {
	Name          string
	Scope, Undone []string
	Cautions      []struct{ Step, Text string }
	Weight, Hours struct{ Value decimal.Decimal }
}

type comparison struct {
	First, Second side
	Difference    optionDifference
	Words         map[string]string
}

// The difference of two options is told by step and line and adds to the cent, whichever way round it is asked for.
func TestTwoOptionsSideBySide(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		path := d.estimate(1, "compare")
		var got, turned comparison
		body := d.role(auth.Owner).get(path).want(200).body
		answer{t, 200, nil, body}.into(&got)
		d.get(path + "?first=" + d.demo.Options[1] + "&second=" + d.demo.Options[0]).want(200).into(&turned)
		foots(t, got.Difference)
		foots(t, turned.Difference)
		if sum := got.Difference.Total.Difference.Amount.Add(turned.Difference.Total.Difference.Amount); !sum.IsZero() || got.Difference.Total.Difference.Amount.IsZero() {
			t.Errorf("one way it is %v, the other %v", got.Difference.Total, turned.Difference.Total)
		}
		if got.First.Name != "The ten worst pairs" || got.Second.Name != "All frames" || len(got.First.Undone) == 0 || len(got.Second.Scope) == 0 || len(got.First.Cautions) == 0 {
			t.Errorf("the sides are %+v and %+v", got.First, got.Second)
		}
		if !got.First.Weight.Value.LessThan(got.Second.Weight.Value) || !got.First.Hours.Value.LessThan(got.Second.Hours.Value) {
			t.Errorf("weight and hours are %v and %v", got.First, got.Second)
		}
		for _, s := range got.Difference.Steps {
			for _, l := range s.Lines {
				if got.Words[l.Key] == "" || strings.Contains(got.Words[l.Key], "_") {
					t.Errorf("line %s is called %q", l.Key, got.Words[l.Key])
				}
			}
		}
		// It is the frozen estimate that is compared: what the job has now changes nothing.
		d.send(http.MethodPut, d.option(0, "remedies"), replace(14, 15), seen(`"1"`)).want(200)
		if after := d.role(auth.Owner).get(path).want(200).body; string(after) != string(body) {
			t.Error("the comparison moved with the option")
		}
	})
}

// foots checks that every total is the sum of what is shown below it.
func foots(t *testing.T, o optionDifference) {
	t.Helper()
	var steps decimal.Decimal
	for _, s := range o.Steps {
		var lines decimal.Decimal
		for _, l := range s.Lines {
			lines = lines.Add(l.Price.Difference.Amount)
		}
		if !lines.Equal(s.Price.Difference.Amount) {
			t.Errorf("the lines of %s add to %s, it shows %s", s.Step, lines, s.Price.Difference.Amount)
		}
		steps = steps.Add(s.Price.Difference.Amount)
	}
	if !steps.Equal(o.Net.Difference.Amount) || !steps.Add(o.Tax.Difference.Amount).Equal(o.Total.Difference.Amount) {
		t.Errorf("the steps add to %s, the net shows %s and the total %s", steps, o.Net.Difference.Amount, o.Total.Difference.Amount)
	}
}

func TestWhatCannotBeCompared(t *testing.T) {
	d := open(t, file(t))
	path := d.estimate(1, "compare")
	d.get(path+"?first="+d.demo.Options[0]).refused(400, "malformed-request")
	d.get(path+"?first="+d.demo.Options[0]+"&second="+nobody).refused(404, "not-found")
	_, draft := d.draft(d.demo.Options...)
	d.get(draft+"/compare").refused(404, "not-found")
	one, single := d.draft(d.demo.Options[0])
	d.send(http.MethodPost, single+"/issue", nil, d.key()).want(200)
	d.get(single+"/compare").refused(404, "not-found")
	var got comparison
	d.get(one + "/revisions/1/compare?first=" + d.demo.Options[0] + "&second=" + d.demo.Options[0]).want(200).into(&got)
	if !got.Difference.Total.Difference.Amount.IsZero() {
		t.Errorf("an option differs from itself by %v", got.Difference.Total)
	}
}

// The rate of a tax is the only rate that an owner is told.
var taxRate = regexp.MustCompile(`"category":"[^"]*","rate":"[^"]*"`)

// Nothing that the owner can call tells what a thing costs the yard: not by name, not by amount. The owner can call
// none of spend, reconciliation, repricing and prices.
func TestNoByteToTheOwnerTellsCost(t *testing.T) {
	d := open(t, file(t))
	owner := d.role(auth.Owner)
	owner.send(http.MethodPost, d.estimate(1, "accept"), acceptance(d.demo.Options[0]), d.key()).want(200)
	d.accountant().confirmed(seed.SpendCSV())
	secret := d.costs()
	for _, op := range operations(t) {
		if rolesOf(t, op)[len(rolesOf(t, op))-1] != string(auth.Owner) {
			continue
		}
		s := d.sample(op)
		answered := op.ask(owner, s, d.ids(op), "")
		if answered.status != 200 && answered.status != 409 {
			t.Errorf("%s answers the owner with %d", op.OperationID, answered.status)
		}
		told := string(answered.body)
		words := append([]string{"cost", "markup", "margin", "supplier", "Sawmill", "Chandlery", "wage"}, secret...)
		if strings.HasSuffix(op.path, ".pdf") {
			onPaper(t, answered.body, func(t *testing.T, text string) { tellsNone(t, op.OperationID, text, words) })
			continue
		}
		if told = taxRate.ReplaceAllString(told, ""); strings.Contains(told, `rate"`) || strings.Contains(told, `"rate`) {
			t.Errorf("%s tells of a rate: %.2000s", op.OperationID, told)
		}
		tellsNone(t, op.OperationID, told, words)
	}
	for _, path := range []string{d.job("spend"), d.job("reconciliation"), d.estimate(1, "repriced"), d.sheet("compare"), d.job("spend", "imports", nobody)} {
		owner.get(path).refused(403, "role-not-allowed")
	}
}

// costs are the amounts of the demo's quote that are not the owner's to know, as JSON and as paper write them.
func (d *desk) costs() []string {
	d.t.Helper()
	var yard struct {
		Priced struct {
			Options []struct {
				Cost  struct{ Amount string }
				Lines []struct {
					Rate        string
					Cost, Price struct{ Amount string }
				}
			}
		}
	}
	d.get(d.estimate(1)).want(200).into(&yard)
	var out []string
	for _, o := range yard.Priced.Options {
		out = append(out, `"`+o.Cost.Amount+`"`, grouped(o.Cost.Amount))
		for _, l := range o.Lines {
			if l.Cost != l.Price {
				out = append(out, `"`+l.Cost.Amount+`"`, grouped(l.Cost.Amount))
			}
		}
	}
	if len(out) < 20 {
		d.t.Fatalf("only %d costs to look for", len(out))
	}
	return out
}

func TestTwoVersionsOfAPriceSheet(t *testing.T) {
	engines(t, func(t *testing.T, p place) {
		d := open(t, p)
		var got struct {
			Items []struct {
				Change, Label string
				Cells         []struct{ Column, Old, New string }
				Price         *struct{ Unit, Old, New, Difference, Percent string }
			}
			Added, Removed, Changed, Same int
		}
		d.get(d.sheet("compare") + "?from=1&to=2").want(200).into(&got)
		if got.Added != 0 || got.Removed != 0 || got.Changed != 15 || got.Same != 3 {
			t.Errorf("added %d, removed %d, changed %d, same %d", got.Added, got.Removed, got.Changed, got.Same)
		}
		found := false
		for _, i := range got.Items {
			if i.Label == "shipwright" {
				found = i.Price != nil && i.Price.Old == "46" && i.Price.New == "48.5" && i.Price.Difference == "2.5" && i.Price.Percent == "5.43" && len(i.Cells) == 1 && i.Cells[0].Column == "price"
			}
		}
		if !found {
			t.Errorf("the shipwright's hour is not among %+v", got.Items)
		}
		d.get(d.sheet("compare")+"?from=1&to=9").refused(404, "not-found")
		d.get(d.sheet("compare")+"?from=1").refused(400, "malformed-request")
	})
}

// tellsNone holds what is told to none of the words.
func tellsNone(t *testing.T, what, told string, words []string) {
	t.Helper()
	for _, word := range words {
		if strings.Contains(told, word) {
			t.Errorf("%s tells the owner %q", what, word)
		}
	}
}
