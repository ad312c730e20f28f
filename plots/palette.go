package plots

import (
	"cmp"
	"encoding/binary"
	"image"
	"image/color"
	"math"
	"slices"
)

// mostColors is what a PNG with a palette holds.
const mostColors = 256

// indexed gives an opaque picture a palette: its most frequent colours, but none
// so near to a more frequent one that it can stand in for it, as near as it takes
// for the palette to hold them all. Flat colours stay as they are, shades on
// the edges of shapes move too little to be seen, and the file is a third the
// size, which a page with twenty pictures in it needs.
func indexed(picture *image.RGBA) *image.Paletted {
	counts := map[color.RGBA]int{}
	eachRun(picture, func(c color.RGBA, length int) { counts[c] += length })
	colors := make([]color.RGBA, 0, len(counts))
	for c := range counts {
		colors = append(colors, c)
	}
	slices.SortFunc(colors, func(a, b color.RGBA) int {
		return cmp.Or(cmp.Compare(counts[b], counts[a]), cmp.Compare(a.R, b.R), cmp.Compare(a.G, b.G), cmp.Compare(a.B, b.B))
	})
	var kept []color.RGBA
	for near := 0; kept == nil; near += 2 {
		kept = spacedOut(colors, near)
	}
	palette := make(color.Palette, len(kept))
	for i, c := range kept {
		palette[i] = c
	}
	nearest := make(map[color.RGBA]uint8, len(colors))
	for _, c := range colors {
		nearest[c] = nearestTo(c, kept)
	}
	out := image.NewPaletted(picture.Bounds(), palette)
	rest := out.Pix
	eachRun(picture, func(c color.RGBA, length int) {
		if index := nearest[c]; index > 0 { // 0, the ground, is there already
			for i := range length {
				rest[i] = index
			}
		}
		rest = rest[length:]
	})
	return out
}

// nearestTo is the place of the colour that differs least from c, by the sum of
// squares.
func nearestTo(c color.RGBA, kept []color.RGBA) (place uint8) {
	square := func(a, b uint8) int { return (int(a) - int(b)) * (int(a) - int(b)) }
	least := math.MaxInt
	for i, k := range kept {
		if apart := square(c.R, k.R) + square(c.G, k.G) + square(c.B, k.B); apart < least {
			place, least = uint8(i), apart
		}
	}
	return place
}

// spacedOut keeps the colours that differ in some channel by more than near from
// all kept before them; nil if that leaves more than a palette holds.
func spacedOut(colors []color.RGBA, near int) []color.RGBA {
	within := func(a, b uint8) bool { return int(a)-int(b) <= near && int(b)-int(a) <= near }
	var kept []color.RGBA
	for _, c := range colors {
		if slices.ContainsFunc(kept, func(k color.RGBA) bool {
			return within(k.R, c.R) && within(k.G, c.G) && within(k.B, c.B)
		}) {
			continue
		}
		if len(kept) == mostColors {
			return nil
		}
		kept = append(kept, c)
	}
	return kept
}

// eachRun goes through the pixels row by row, in runs of one colour.
func eachRun(picture *image.RGBA, do func(c color.RGBA, length int)) {
	pixel, two := binary.NativeEndian.Uint32, binary.NativeEndian.Uint64
	for rest := picture.Pix; len(rest) > 0; {
		first, end := pixel(rest), 4
		for twice := uint64(first)<<32 | uint64(first); end+8 <= len(rest) && two(rest[end:]) == twice; {
			end += 8
		}
		for end < len(rest) && pixel(rest[end:]) == first {
			end += 4
		}
		do(color.RGBA{rest[0], rest[1], rest[2], rest[3]}, end/4)
		rest = rest[end:]
	}
}
