package acceptance

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// coachingPages are pages by name: of the demo season, of a squad of three, in
// metres, and of players whose names are hard on a layout.
func coachingPages(t *testing.T) map[string]string {
	t.Helper()
	folder := t.TempDir()
	squad, hard := filepath.Join(folder, "squad.csv"), filepath.Join(folder, "hard.csv")
	command(t, folder, generate, "--players", "3", "--rounds", "12", "--out", squad)
	writeHardNames(t, squad, hard)
	out := func(name string, args ...string) string {
		into := filepath.Join(folder, name)
		command(t, folder, program, append([]string{"--quiet", "--out", into}, args...)...)
		return into
	}
	demo, metres := out("demo", "--demo", "--goal", "par"), out("metres", "--demo", "--units", "m")
	of, named := out("squad", squad), out("hard", hard)
	pages := map[string]string{
		"demo": filepath.Join(demo, "report.html"), "metres": filepath.Join(metres, "report.html"),
		"squad": filepath.Join(of, "report.html"), "hard-names": filepath.Join(named, "report.html"),
	}
	for name, results := range map[string]string{"player": of, "hard-name": named} {
		found, err := filepath.Glob(filepath.Join(results, "players", "*", "report.html"))
		if err != nil || len(found) != 3 {
			t.Fatalf("%s: there are %d pages of players (%v), expected 3", results, len(found), err)
		}
		for i, file := range found {
			pages[fmt.Sprintf("%s-%d", name, i+1)] = file
		}
	}
	return pages
}

// writeHardNames copies a log with other names for its players: one word of
// great length, Hebrew with markup, and a pile of combining marks.
func writeHardNames(t *testing.T, from, to string) {
	t.Helper()
	text, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(text), "\n")
	column := -1
	for i, name := range strings.Split(lines[0], ",") {
		if name == "player" {
			column = i
		}
	}
	if column < 0 {
		t.Fatal("the log has no column player")
	}
	hard := []string{strings.Repeat("Wolkenbruch", 40), "אבגד <script>alert(1)</script> הוזח", "Zo" + strings.Repeat("\u0308\u0301\u0336", 60) + "e"}
	given := map[string]string{}
	for i, line := range lines[1:] {
		cells := strings.Split(line, ",")
		if len(cells) <= column {
			continue
		}
		if given[cells[column]] == "" {
			given[cells[column]] = hard[len(given)%len(hard)]
		}
		cells[column] = given[cells[column]]
		lines[i+1] = strings.Join(cells, ",")
	}
	if err := os.WriteFile(to, []byte(strings.Join(lines, "\n")), 0o644); err != nil {
		t.Fatal(err)
	}
}

// What the tests below look for is found where it is.
func TestBrowserNoticesABadPage(t *testing.T) {
	b := openBrowser(t)
	rules, err := axe()
	if err != nil {
		t.Fatalf("%s: %v", axeVersion, err)
	}
	bad := filepath.Join(t.TempDir(), "bad.html")
	if err := os.WriteFile(bad, []byte(`<title>bad</title><img src="missing.png"><img src="http://127.0.0.1:1/x.png">
		<script>console.error("a mistake"); throw new Error("another")</script><p style="width:3000px; color:#ccc">pale and wide</p><footer></footer>`), 0o644); err != nil {
		t.Fatal(err)
	}
	b.open(bad, 1280)
	if wide := ask[int64](b, pageWidth); wide != 3000+8 {
		t.Errorf("the page is %d wide, expected 3008: %s", wide, ask[string](b, widest))
	}
	if broken := ask[int](b, brokenImages); broken != 2 {
		t.Errorf("%d broken images, expected 2", broken)
	}
	ask[chromedp.Void](b, rules)
	if serious := ask[int](b, "axe.run().then(r => r.violations.filter(v => v.impact === 'serious' || v.impact === 'critical').length)"); serious < 2 {
		t.Errorf("axe-core finds %d serious barriers, expected two or more", serious)
	}
	said := strings.Join(b.complaints(), "\n")
	for _, want := range []string{"console error \"a mistake\"", "exception Uncaught", "request http://127.0.0.1:1/x.png", "log Failed to load resource"} {
		if !strings.Contains(said, want) {
			t.Errorf("nothing is said of: %s\n%s", want, said)
		}
	}
}

func TestPageIsQuietWholeAndWithinItsWindow(t *testing.T) {
	b := openBrowser(t)
	look := os.Getenv("ROUNDMILL_LOOK")
	for name, file := range coachingPages(t) {
		// A window of 1280 at 200 % is 640 wide.
		for _, width := range []int64{1280, 640, 360} {
			b.open(file, width)
			if wide := ask[int64](b, pageWidth); wide > width {
				t.Errorf("%s is %d wide in a window of %d: %s", name, wide, width, ask[string](b, widest))
			}
			if broken := ask[int](b, brokenImages); broken > 0 {
				t.Errorf("%s, %d wide: %d images are not loaded or have no words", name, width, broken)
			}
			if scripts := ask[int](b, "document.scripts.length"); scripts > 0 {
				t.Errorf("%s has %d scripts", name, scripts)
			}
			if stuck := ask[int](b, "[...document.querySelectorAll('*')].filter(e => e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflowX === 'auto' && e.tabIndex < 0).length"); stuck > 0 {
				t.Errorf("%s, %d wide: %d boxes scroll and no key reaches them", name, width, stuck)
			}
			if look != "" {
				save(t, look, fmt.Sprintf("%s-%d.png", name, width), result(b, chromedp.FullScreenshot(100)))
			}
		}
	}
	for _, complaint := range b.complaints() {
		t.Error(complaint)
	}
}

const (
	pageWidth    = "document.documentElement.scrollWidth"
	brokenImages = "[...document.images].filter(i => !i.complete || i.naturalWidth === 0 || !i.alt).length"
)

// widest names the elements that reach past the window.
const widest = `[...document.querySelectorAll('body *')].filter(e => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest('.box')).map(e => e.outerHTML.slice(0, 80)).slice(0, 3).join(' | ')`

func TestPageHasNoSeriousBarrier(t *testing.T) {
	b := openBrowser(t)
	rules, err := axe()
	if err != nil {
		t.Fatalf("%s: %v", axeVersion, err)
	}
	for name, file := range coachingPages(t) {
		for _, width := range []int64{1280, 360} {
			b.open(file, width)
			ask[chromedp.Void](b, rules)
			type violation struct{ ID, Impact, Help, HTML string }
			checked := ask[int](b, "axe.run().then(r => (window.found = r, r.passes.length))")
			if checked < 20 {
				t.Fatalf("%s: axe-core checked only %d rules", name, checked)
			}
			for _, v := range ask[[]violation](b, "window.found.violations.map(v => ({id: v.id, impact: v.impact, help: v.help, html: v.nodes[0].html.slice(0, 200)}))") {
				if v.Impact == "serious" || v.Impact == "critical" {
					t.Errorf("%s, %d wide: %s (%s): %s\n%s", name, width, v.ID, v.Impact, v.Help, v.HTML)
				} else {
					t.Logf("%s, %d wide: %s (%s): %s\n%s", name, width, v.ID, v.Impact, v.Help, v.HTML)
				}
			}
		}
	}
}

func TestPagePrintsOnA4AndLetterWithoutLoss(t *testing.T) {
	b := openBrowser(t)
	look := os.Getenv("ROUNDMILL_LOOK")
	const perInch, marginMm = 96, 15
	for name, file := range coachingPages(t) {
		for paper, size := range map[string]chromedp.PaperSize{"a4": chromedp.PaperA4, "letter": chromedp.PaperLetter} {
			// On screen, as wide as the paper between its margins, in print's style.
			width, height := (size.Width-2*marginMm/25.4)*perInch, (size.Height-2*marginMm/25.4)*perInch
			call(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
			b.open(file, int64(width))
			if wide := ask[int64](b, pageWidth); wide > int64(width) {
				t.Errorf("%s on %s: %d wide of %.0f: %s", name, paper, wide, width,
					ask[string](b, strings.Replace(widest, "&& !e.closest('.box')", "", 1)))
			}
			if tall := ask[int](b, fmt.Sprintf("[...document.images].filter(i => i.getBoundingClientRect().height > %f || i.getBoundingClientRect().width > innerWidth).length", height)); tall > 0 {
				t.Errorf("%s on %s: %d charts do not fit the paper", name, paper, tall)
			}
			pdf := result(b, chromedp.PrintToPDF(chromedp.PDFPaper(size)))
			call(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{})
			if pages := bytes.Count(pdf, []byte("/Type /Page\n")); !bytes.HasPrefix(pdf, []byte("%PDF-")) || pages == 0 {
				t.Errorf("%s on %s: no print of %d bytes and %d pages", name, paper, len(pdf), pages)
			}
			if look != "" {
				save(t, look, name+"-"+paper+".pdf", pdf)
			}
		}
	}
	for _, complaint := range b.complaints() {
		t.Error(complaint)
	}
}

func save(t *testing.T, folder, name string, content []byte) {
	t.Helper()
	if err := os.MkdirAll(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, name), content, 0o644); err != nil {
		t.Fatal(err)
	}
}
