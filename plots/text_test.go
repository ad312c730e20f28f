package plots

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"
)

func TestNamesAreMadePrintable(t *testing.T) {
	for _, test := range []struct{ what, name, want string }{
		{"plain", "Alex Sample", "Alex Sample"},
		{"accents, Greek and Cyrillic", "Żółć Ŝampló Αλέξ Алекс", "Żółć Ŝampló Αλέξ Алекс"},
		{"an accent written apart", "Ale\u0301x", "Aléx"},
		{"a pile of marks that do not compose", "Z\u0321\u034e\u0348a\u0335l", "Z□a□l"},
		{"line breaks and runs of space", " a\n\tb\u2003 c ", "a b c"},
		{"a control character", "a\x00b\x07", "a□b□"},
		{"broken bytes", "a\xff\xfeb", "a□b"},
		{"emoji with a joiner and a variation selector", "\U0001F3CC\U0001F3FD\u200d♀\ufe0f", "□□♀"},
		{"Chinese", "見本", "□□"},
		{"Arabic, which the font lacks", "مثال", "□□□□"},
		{"Hebrew, from right to left", "אבג", "גבא"},
		{"Hebrew before Latin", "אבג Alex", "גבא Alex"},
		{"Hebrew with a number inside", "אב 12 גד", "דג 12 בא"},
		{"Hebrew with a bracket", "אב (1) Alex", "(1) בא Alex"},
		{"a direction override", "a\u202eb\u202cc", "abc"},
		{"markup", "<b>x</b>", "<b>x</b>"},
		{"nothing", "", ""},
		{"only space", " \n ", ""},
	} {
		if got := printable(test.name); got != test.want {
			t.Errorf("%s: %q is printed %q, want %q", test.what, test.name, got, test.want)
		}
	}
}

func TestEveryPrintableRuneHasAGlyph(t *testing.T) {
	regular := face(1, xfont.WeightNormal).Face
	rapid.Check(t, func(t *rapid.T) {
		text := printable(rapid.String().Draw(t, "text"))
		if !utf8.ValidString(text) {
			t.Fatalf("%q is not UTF-8", text)
		}
		for _, r := range text {
			if glyph, err := regular.GlyphIndex(nil, r); err != nil || glyph == 0 {
				t.Fatalf("%q has %U, which the font lacks", text, r)
			}
		}
	})
}

func TestTheFontHasEverySignTheChartsUse(t *testing.T) {
	for _, weight := range []xfont.Weight{xfont.WeightNormal, xfont.WeightBold} {
		for _, r := range minus + ellipsis + NoBreak + string(tofu) + "–·▲%,+" {
			if glyph, err := face(1, weight).Face.GlyphIndex(nil, r); err != nil || glyph == 0 {
				t.Errorf("weight %v has no %U %c", weight, r, r)
			}
		}
	}
}

func TestLinesAreWrappedInsideTheirWidthAndLoseNothing(t *testing.T) {
	f := face(10, xfont.WeightNormal)
	rapid.Check(t, func(t *rapid.T) {
		text := printable(rapid.StringMatching(`[a-zA-Z …−,.0-9]{0,200}`).Draw(t, "text"))
		width := vg.Length(rapid.Float64Range(20, 400).Draw(t, "width"))
		lines := wrapped(text, f, width, 1000)
		for _, line := range lines {
			if f.Width(line) > width {
				t.Fatalf("%q is %v wide, more than %v", line, f.Width(line), width)
			}
		}
		squeezed := func(s string) string { return strings.ReplaceAll(s, " ", "") }
		if got := strings.Join(lines, ""); squeezed(got) != squeezed(text) {
			t.Fatalf("%q became %q", text, lines)
		}
	})
}

func TestTextPastTheLastLineEndsInAnEllipsis(t *testing.T) {
	f := face(10, xfont.WeightNormal)
	lines := wrapped(strings.Repeat("proximity ", 40), f, 120, 3)
	if len(lines) != 3 {
		t.Fatalf("%d lines, want 3", len(lines))
	}
	if !strings.HasSuffix(lines[2], ellipsis) || f.Width(lines[2]) > 120 {
		t.Errorf("the last line is %q, %v wide", lines[2], f.Width(lines[2]))
	}
}

func TestShortTextIsNotShortened(t *testing.T) {
	f := face(10, xfont.WeightNormal)
	if got := shortened("Alex", f, 100); got != "Alex" {
		t.Errorf("Alex became %q", got)
	}
	if got := shortened("Alex Sample", f, 0.1); got != ellipsis {
		t.Errorf("with no room at all Alex Sample became %q", got)
	}
}

func TestATitleIsBrokenWhereTheSentencePauses(t *testing.T) {
	f := face(10, xfont.WeightBold)
	const width = vg.Length(320)
	for _, test := range []struct {
		what, text string
		want       []string
	}{
		{"short", "Where do approaches finish?", []string{"Where do approaches finish?"}},
		{"a pause", "Approach play loses 2.2 strokes a round; tee shots may lose as much",
			[]string{"Approach play loses 2.2 strokes a round;", "tee shots may lose as much"}},
		{"no pause, and the last line long", "The rough leaves the ball farther away than the fairway does from every band of the season",
			[]string{"The rough leaves the ball farther away than the fairway does", "from every band of the season"}},
		{"no pause, and a lone word", "The rough leaves the ball farther away than the fairway does everywhere",
			[]string{"The rough leaves the ball farther away than", "the fairway does everywhere"}},
		{"nothing", "", nil},
	} {
		got := titleLines(test.text, f, width, 3)
		if !slices.Equal(got, test.want) {
			t.Errorf("%s: %q", test.what, got)
		}
	}
	if got := titleLines(strings.Repeat("proximity ", 60), f, width, 3); len(got) != 3 || !strings.HasSuffix(got[2], ellipsis) {
		t.Errorf("a title too long became %q", got)
	}
}
