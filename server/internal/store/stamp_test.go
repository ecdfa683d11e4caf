package store_test

import (
	"bytes"
	"crypto/rand"
	"testing"
	"time"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"ribband/server/internal/store"
)

// TestIdentifiersSortByStamp checks order, version, variant and time against an
// independent reading of RFC 9562, section 5.7.
func TestIdentifiersSortByStamp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Until the year 3000, in microseconds.
		last := time.Date(3000, 1, 1, 0, 0, 0, 0, time.UTC).UnixMicro()
		early := rapid.Int64Range(0, last).Draw(t, "early")
		late := early + rapid.Int64Range(1, 5000).Draw(t, "gap")
		first, err := store.NewID(early, rand.Reader)
		if err != nil {
			t.Fatal(err)
		}
		second, err := store.NewID(late, rand.Reader)
		if err != nil {
			t.Fatal(err)
		}
		if first >= second {
			t.Fatalf("%s of %d does not sort before %s of %d", first, early, second, late)
		}
		id, err := uuid.Parse(first)
		if err != nil || id.Version() != 7 || id.Variant() != uuid.RFC4122 {
			t.Fatalf("%s: version %d, variant %v, %v", first, id.Version(), id.Variant(), err)
		}
		var milli int64
		for _, b := range id[:6] {
			milli = milli<<8 | int64(b)
		}
		if milli != early/1000 {
			t.Fatalf("%s carries %d ms, not %d", first, milli, early/1000)
		}
	})
}

// TestIdentifierKeepsItsRandomBits counts the bits that differ between all-zero and
// all-one randomness: 62 in rand_b and 2 in rand_a are random.
func TestIdentifierKeepsItsRandomBits(t *testing.T) {
	zeros, err := store.NewID(1_234_567, bytes.NewReader(make([]byte, 16)))
	if err != nil {
		t.Fatal(err)
	}
	ones, err := store.NewID(1_234_567, bytes.NewReader(bytes.Repeat([]byte{0xff}, 16)))
	if err != nil {
		t.Fatal(err)
	}
	a, b := uuid.MustParse(zeros), uuid.MustParse(ones)
	differ := 0
	for i := range a {
		for x := a[i] ^ b[i]; x != 0; x &= x - 1 {
			differ++
		}
	}
	if differ != 64 {
		t.Errorf("%d bits are random", differ)
	}
	if _, err := store.NewID(1, bytes.NewReader(nil)); err == nil {
		t.Error("an identifier was made without randomness")
	}
}
