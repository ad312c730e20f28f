package plots

import (
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/bidi"
	"golang.org/x/text/unicode/norm"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

const (
	tofu     = '□' // stands where the font has no glyph
	ellipsis = "…"

	// Liberation Sans, in parts of the type size.
	capHeight = 0.69
	descent   = 0.21
	leading   = 1.28 // from one baseline to the next
)

var liberationSans = sync.OnceValue(func() *font.Cache {
	face := func(weight xfont.Weight, ttf []byte) font.Face {
		parsed, err := opentype.Parse(ttf)
		if err != nil {
			panic("plots: the embedded font cannot be read: " + err.Error())
		}
		return font.Face{Font: font.Font{Typeface: "Liberation", Variant: "Sans", Weight: weight}, Face: parsed}
	}
	return font.NewCache(font.Collection{
		face(xfont.WeightNormal, liberationsansregular.TTF),
		face(xfont.WeightBold, liberationsansbold.TTF),
	})
})

// face is Liberation Sans in one size and weight.
func face(size vg.Length, weight xfont.Weight) font.Face {
	return liberationSans().Lookup(font.Font{Typeface: "Liberation", Variant: "Sans", Weight: weight}, size)
}

// printable makes text from a log fit for a picture: composed, on one line, in
// the order it is seen from left to right, and with a □ where the font has no
// glyph or no way to place one. Direction marks and joiners, which have no look
// of their own, go.
func printable(text string) string {
	return leftToRight(withGlyphs(norm.NFC.String(strings.ToValidUTF8(text, string(tofu)))))
}

func withGlyphs(text string) string {
	var out strings.Builder
	var buffer sfnt.Buffer
	regular := face(1, xfont.WeightNormal).Face
	var last rune
	lastIsMark := false
	for _, r := range text {
		if unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r) {
			continue
		}
		isMark := unicode.Is(unicode.Mn, r)
		if isMark && lastIsMark {
			continue // one □ for a pile of marks that did not compose
		}
		lastIsMark = isMark
		if unicode.IsSpace(r) {
			if last != ' ' && out.Len() > 0 {
				out.WriteRune(' ')
				last = ' '
			}
			continue
		}
		glyph, err := regular.GlyphIndex(&buffer, r)
		if err != nil || glyph == 0 || isMark || unicode.IsControl(r) {
			r = tofu
		}
		out.WriteRune(r)
		last = r
	}
	return strings.TrimRight(out.String(), " ")
}

// leftToRight reorders text for a drawing routine that knows one direction, by
// rule L2 of the Unicode Bidirectional Algorithm (UAX 9) for a line that runs
// from left to right: what was written from right to left is turned round,
// with numbers inside it staying as they are.
func leftToRight(text string) string {
	var paragraph bidi.Paragraph
	if _, err := paragraph.SetString(text, bidi.DefaultDirection(bidi.LeftToRight)); err != nil {
		return text
	}
	order, err := paragraph.Order()
	if err != nil {
		return text
	}
	var out strings.Builder
	turned := "" // runs since the last from left to right, the latest in front
	flush := func() {
		// Rule N2: space between two directions goes with the line, which the
		// library leaves in the run before it.
		visible := strings.TrimLeft(turned, " ")
		out.WriteString(visible + turned[:len(turned)-len(visible)])
		turned = ""
	}
	for i := range order.NumRuns() {
		run := order.Run(i)
		switch {
		case run.Direction() == bidi.RightToLeft:
			turned = bidi.ReverseString(run.String()) + turned
		case turned != "" && !strings.ContainsFunc(run.String(), unicode.IsLetter):
			turned = run.String() + turned
		default:
			flush()
			out.WriteString(run.String())
		}
	}
	flush()
	return out.String()
}

// shortened cuts text that is wider than width and ends it in an ellipsis.
func shortened(text string, f font.Face, width vg.Length) string {
	if f.Width(text) <= width {
		return text
	}
	runes := []rune(text)
	kept, tooMany := 0, len(runes)
	for kept+1 < tooMany {
		middle := (kept + tooMany) / 2
		if f.Width(string(runes[:middle])+ellipsis) <= width {
			kept = middle
		} else {
			tooMany = middle
		}
	}
	return strings.TrimRight(string(runes[:kept]), " ") + ellipsis
}

// wrapped breaks text into lines no wider than width, at spaces where it can
// and inside a word where it must; past the last line allowed it is shortened.
func wrapped(text string, f font.Face, width vg.Length, most int) []string {
	var lines []string
	for text != "" {
		if f.Width(text) <= width || len(lines) == most-1 {
			return append(lines, shortened(text, f, width))
		}
		end := lineEnd(text, f, width)
		lines = append(lines, strings.TrimRight(text[:end], " "))
		text = strings.TrimLeft(text[end:], " ")
	}
	return lines
}

// titleLines is wrapped without more lines, but broken where the sentence
// pauses if it can be, and else so that the last line is no lone word.
func titleLines(text string, f font.Face, width vg.Length, most int) []string {
	lines := wrapped(text, f, width, most)
	even := lines
	const step, lone = vg.Length(4), 0.4
	for narrower := width; narrower > width/vg.Length(len(lines)+1); narrower -= step {
		tried := wrapped(text, f, narrower, most+1)
		if len(tried) > len(lines) {
			break
		}
		if pauses(tried) {
			return tried
		}
		if last := tried[len(tried)-1]; f.Width(even[len(even)-1]) < lone*width && f.Width(last) >= lone*width {
			even = tried
		}
	}
	return even
}

// pauses says whether the sentence pauses at the end of every line.
func pauses(lines []string) bool {
	return !slices.ContainsFunc(lines[:len(lines)-1], func(line string) bool {
		return !strings.ContainsAny(line[len(line)-1:], ";:?,")
	})
}

// lineEnd is the byte offset at which the first line of text has to end.
func lineEnd(text string, f font.Face, width vg.Length) int {
	end := 0
	for i, r := range text {
		if r != ' ' {
			continue
		}
		if f.Width(text[:i]) > width {
			break
		}
		end = i
	}
	if end > 0 {
		return end
	}
	for i := range text {
		if i > 0 && f.Width(text[:i]) > width {
			break
		}
		end = i
	}
	if end == 0 {
		_, end = utf8.DecodeRuneInString(text)
	}
	return end
}
