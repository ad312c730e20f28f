package ingest

import (
	"bytes"
	"slices"
	"strings"
)

// Keys of objects whose members speak of the record or of what it is part of,
// and of those that say where the hole is, in normal form.
var (
	plainObjects = []string{
		"properties", "shot", "stroke", "hole", "round", "course", "player", "ball", "position", "ballposition",
		"location", "from", "start", "startposition",
	}
	wholeObjects = []string{"course", "round", "player"} // of the plain ones, those that are more than a stroke or a hole
	holeObjects  = []string{"holeposition", "holelocation", "pin", "pinposition", "flag", "cup"}
)

// fieldsOfPlaces say where a ball is or how long a hole is: of a whole course they
// say where the clubhouse is, and how long the course.
var fieldsOfPlaces = []field{latitude, longitude, x, y, holeLength}

// readings are the names that a key may stand for inside an object that stands
// under another key: {"hole": {"number": 4}} is hole_number.
func readings(outer, key string) []string {
	names := []string{key}
	switch normal := normalForm(outer); {
	case outer == "":
	case slices.Contains(plainObjects, normal):
		names = []string{outer + "_" + key, key}
	case slices.Contains(holeObjects, normal):
		names = []string{outer + "_" + key, "hole_" + key}
	default:
		// The elements of an array go by its name: that of an unknown one says nothing.
		names = []string{key, outer + "_" + key}
	}
	return names
}

// takeObject keeps what an object inside a record says of it: its position as a
// GeoJSON point (RFC 7946), or members that mean fields.
func (w *jsonWalker) takeObject(object nested, from int) {
	normal := normalForm(object.name)
	if normal == "geometry" {
		w.takeGeometry(object, from)
		return
	}
	if !slices.Contains(plainObjects, normal) && !slices.Contains(holeObjects, normal) {
		w.unused[object.name] = true
		return
	}
	w.nesting++
	defer func() { w.nesting-- }()
	object.members(func(key string, member nested) bool {
		switch member.value[0] {
		case 'n':
		case '{':
			if w.nesting < maxNesting {
				w.takeObject(member, from)
			}
		case '[':
			w.unused[object.name+"."+key] = true
		default:
			if m := w.meaningOf(object.name, key); m.field != noField {
				w.keep(m, object.name+"."+key, scalarText(member.value), from)
			} else {
				w.unused[object.name+"."+key] = true
			}
		}
		return true
	})
}

// takeGeometry keeps the position of a point: longitude first, as RFC 7946 has it.
func (w *jsonWalker) takeGeometry(geometry nested, from int) {
	kind := ""
	var coordinates [][]byte
	geometry.members(func(key string, member nested) bool {
		switch {
		case key == "type":
			kind = string(scalarText(member.value))
		case key == "coordinates" && member.value[0] == '[':
			member.elements(func(n nested) bool {
				coordinates = append(coordinates, scalarText(n.value))
				return true
			})
		}
		return true
	})
	if kind != "Point" || len(coordinates) < 2 || slices.ContainsFunc(coordinates, func(c []byte) bool { return bytes.ContainsAny(c, "[{") }) {
		w.fault = "expected a geometry of one point: longitude, latitude"
		return
	}
	w.seen.meet(nestedPosition, []byte(strings.Join([]string{string(coordinates[0]), string(coordinates[1])}, ", ")), geometry.line)
	w.keep(meaning{field: longitude, order: unsettled}, "coordinates[0]", coordinates[0], from)
	w.keep(meaning{field: latitude, order: unsettled}, "coordinates[1]", coordinates[1], from)
}
