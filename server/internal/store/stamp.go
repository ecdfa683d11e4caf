package store

import (
	"encoding/binary"
	"fmt"
	"io"
	"time"

	"github.com/google/uuid"
)

// newID makes a UUIDv7 (RFC 9562, section 5.7) for a stamp in microseconds: 48
// bits of milliseconds; the microseconds within it in the upper ten bits of rand_a
// (method 3 of section 6.2, as far as a microsecond goes); the rest random. Of two
// stamps the later one's identifier sorts after the earlier one's.
func newID(micros int64, entropy io.Reader) (string, error) {
	var id uuid.UUID
	if _, err := io.ReadFull(entropy, id[6:]); err != nil {
		return "", fmt.Errorf("random part of an identifier: %w", err)
	}
	milli, micro := micros/1000, micros%1000
	var stamp [8]byte
	binary.BigEndian.PutUint64(stamp[:], uint64(milli))
	copy(id[:6], stamp[2:])
	low := id[7] & 0x03
	id[6] = 0x70 | byte(micro>>6)
	id[7] = byte(micro<<2) | low
	id[8] = id[8]&0x3f | 0x80
	return id.String(), nil
}

// nextStamp is the stamp for the next row of a yard whose newest stamp is last:
// the clock's microsecond, or one more than last when the clock is not past it.
func nextStamp(now time.Time, last int64) int64 {
	return max(now.UnixMicro(), last+1)
}
