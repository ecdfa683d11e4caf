package store

import (
	"encoding/base64"
	"encoding/binary"

	"gorm.io/gorm"
)

// Sizes of one page of a list. More than the largest is cut to it.
const (
	DefaultLimit = 50
	LargestLimit = 200
)

// Page says which part of a list is wanted.
type Page struct {
	After string // Next of the page before; empty for the first page
	Limit int    // how many at most; 0 or less takes DefaultLimit
}

// List is one page of things, oldest first.
type List[T any] struct {
	Items []T
	Next  string // cursor of the next page; empty when this is the last
}

// size is the limit within its bounds.
func (p Page) size() int {
	if p.Limit <= 0 {
		return DefaultLimit
	}
	return min(p.Limit, LargestLimit)
}

// cursorVersion is the first byte of a cursor, so that its shape may change.
const cursorVersion = 1

// longestID bounds the identifier in a cursor.
const longestID = 200

func encodeCursor(micros int64, id string) string {
	raw := binary.BigEndian.AppendUint64([]byte{cursorVersion}, uint64(micros))
	return base64.RawURLEncoding.EncodeToString(append(raw, id...))
}

func decodeCursor(cursor string) (micros int64, id string, err error) {
	raw, err := base64.RawURLEncoding.Strict().DecodeString(cursor)
	if err != nil || len(raw) < 10 || len(raw) > 9+longestID || raw[0] != cursorVersion || textFault(string(raw[9:])) != "" {
		return 0, "", &CursorError{Cursor: cursor}
	}
	// The decoder passes over line breaks; a list gives out none.
	if base64.RawURLEncoding.EncodeToString(raw) != cursor {
		return 0, "", &CursorError{Cursor: cursor}
	}
	return int64(binary.BigEndian.Uint64(raw[1:9])), string(raw[9:]), nil
}

// CursorFits reports whether a cursor is one that a list gives out, whichever it is.
func CursorFits(cursor string) bool {
	_, _, err := decodeCursor(cursor)
	return err == nil
}

// stamped is a row that knows its place in a list, and its record.
type stamped[T any] interface {
	stamp() (micros int64, id string)
	record() (T, error)
}

// listPage reads one page of the rows that query selects, by (created_at, id). It
// reads one row more than asked for to know whether another page follows.
func listPage[R stamped[T], T any](query *gorm.DB, page Page) (List[T], error) {
	if page.After != "" {
		micros, id, err := decodeCursor(page.After)
		if err != nil {
			return List[T]{}, err
		}
		query = query.Where("(created_at, id) > (?, ?)", micros, id)
	}
	var rows []R
	if err := query.Order("created_at, id").Limit(page.size() + 1).Find(&rows).Error; err != nil {
		return List[T]{}, err
	}
	list := List[T]{Items: make([]T, 0, min(len(rows), page.size()))}
	for i, row := range rows {
		if i == page.size() {
			list.Next = encodeCursor(rows[i-1].stamp())
			break
		}
		record, err := row.record()
		if err != nil {
			return List[T]{}, err
		}
		list.Items = append(list.Items, record)
	}
	return list, nil
}
