package api

import (
	"strings"

	"ribband/server/internal/store"
)

// etag is the version of a document as its ETag.
func etag(n int64) string { return `"` + itoa(n) + `"` }

// seen is the version that a change of c was made on: If-Match with an ETag, or If-None-Match: * the first time.
func (c *call) seen() (store.Seen, error) {
	match, none := strings.TrimSpace(c.GetHeader("If-Match")), strings.TrimSpace(c.GetHeader("If-None-Match"))
	switch {
	case match != "" && none != "":
		return 0, malformedRequest.say("If-Match and If-None-Match are both there. Send the one that is meant.")
	case none == "*":
		return store.Absent, nil
	case none != "":
		return 0, malformedRequest.say("If-None-Match of a change is * and nothing else.")
	case match == "":
		return 0, versionRequired.say("Send If-Match with the ETag that was read, or If-None-Match: * the first time.")
	case match == "*":
		return 0, malformedRequest.say("If-Match: * names no version. Send the ETag that was read.")
	}
	if match == etag(0) {
		return store.Absent, nil // read while nothing stood there
	}
	if n, ok := count(strings.Trim(match, `"`)); ok && len(match) > 2 && match[0] == '"' && match[len(match)-1] == '"' {
		return store.Seen(n), nil
	}
	return 0, malformedRequest.say(`If-Match is %s; it is an ETag as it was read, such as "3".`, shown(match))
}

// matches reports whether an If-None-Match names the ETag. The comparison is weak, as RFC 9110 has it for this
// header.
func matches(header, etag string) bool {
	if header == "" || etag == "" {
		return false
	}
	if strings.TrimSpace(header) == "*" {
		return true
	}
	for _, one := range strings.Split(header, ",") {
		if strings.TrimPrefix(strings.TrimSpace(one), "W/") == etag {
			return true
		}
	}
	return false
}
