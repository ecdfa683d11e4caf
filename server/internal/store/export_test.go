package store

import "database/sql"

// Pools are the connection pools under the store, the writer's first.
func (s *Store) Pools() []*sql.DB { return s.pools }

// NewID and the cursor are tested from outside.
var (
	NewID        = newID
	EncodeCursor = encodeCursor
	DecodeCursor = decodeCursor
)
