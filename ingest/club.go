package ingest

import (
	"cmp"
	"regexp"
	"strings"
)

var clubNames = map[string]string{
	"driver": "driver", "d": "driver", "dr": "driver", "1w": "driver", "1 wood": "driver",
	"putter": "putter", "pt": "putter",
	"pw": "PW", "pitching wedge": "PW", "p wedge": "PW",
	"gw": "GW", "gap wedge": "GW", "aw": "AW", "approach wedge": "AW",
	"sw": "SW", "sand wedge": "SW", "lw": "LW", "lob wedge": "LW",
}

var (
	wood   = regexp.MustCompile(`^(?:(\d|1[0-5]) ?(?:w|wood)|(?:w|wood) ?(\d|1[0-5]))$`)
	hybrid = regexp.MustCompile(`^(?:(\d) ?(?:h|hy|hybrid|rescue)|(?:h|hy|hybrid|rescue) ?(\d))$`)
	iron   = regexp.MustCompile(`^(?:(\d) ?(?:i|iron)|(?:i|iron) ?(\d))$`)
	wedge  = regexp.MustCompile(`^(\d\d) ?(?:°|deg|degree|degrees)?(?: ?(?:w|wedge))?$`)
)

// clubSpelling brings the usual ways to write a club to one: driver, 3 wood,
// 4 hybrid, 7i, PW, 54, putter. Any other name is kept as it is written, in
// lower case.
func clubSpelling(text string) string {
	plain := plainForm(text)
	if name, known := clubNames[plain]; known {
		return name
	}
	for _, shape := range []struct {
		pattern *regexp.Regexp
		suffix  string
	}{{wood, " wood"}, {hybrid, " hybrid"}, {iron, "i"}, {wedge, ""}} {
		if m := shape.pattern.FindStringSubmatch(plain); m != nil {
			name := strings.Join(m[1:], "") + shape.suffix
			return cmp.Or(clubNames[name], name)
		}
	}
	return plain
}
