package page

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"maps"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"roundmill/ingest"
	"roundmill/metrics"
	"roundmill/plots"
	"roundmill/testdata/demo"
	"roundmill/testdata/demo/figures"
	"roundmill/testdata/demo/golfer"
)

func fieldLog(players, rounds int) []byte {
	var log bytes.Buffer
	if _, err := golfer.WriteCSV(&log, golfer.Field(6, players, rounds)); err != nil {
		panic(err)
	}
	return log.Bytes()
}

var (
	demoFigures  = sync.OnceValue(func() *metrics.Results { return figures.OfLog(demo.CSV) })
	squadFigures = sync.OnceValue(func() *metrics.Results { return figures.OfLog(fieldLog(3, 12)) })
	roundFigures = sync.OnceValue(func() *metrics.Results { return figures.OfLog(fieldLog(1, 1)) })
)

// dot is a picture of one pixel, for pages that nobody looks at.
var dot = sync.OnceValue(func() []byte {
	var picture bytes.Buffer
	if err := png.Encode(&picture, image.NewGray(image.Rect(0, 0, 1, 1))); err != nil {
		panic(err)
	}
	return picture.Bytes()
})

// reportOf is the report of figures with a dot for every chart.
func reportOf(figures *metrics.Results, units plots.Units) *Report {
	return reportWith(figures, units, func(*plots.Chart) []byte { return dot() })
}

// drawnReport is the report of figures with every chart drawn.
func drawnReport(tb testing.TB, figures *metrics.Results, units plots.Units) *Report {
	return reportWith(figures, units, func(chart *plots.Chart) []byte {
		var picture bytes.Buffer
		if err := chart.WritePNG(&picture); err != nil {
			tb.Fatal(err)
		}
		return picture.Bytes()
	})
}

func reportWith(figures *metrics.Results, units plots.Units, draw func(*plots.Chart) []byte) *Report {
	display := plots.Display{Units: units, BaselineSource: "a note on where the table comes from.", ShortGameYd: 50}
	charts, missing := plots.Charts(figures, display)
	r := &Report{Figures: figures, Display: display, Missing: missing, Version: "0.0", Reading: plots.Reading{
		Files: []ingest.FileInfo{{Name: "may <b>.csv"}}, Tallies: make([]ingest.Tally, 1), Rounds: []int{3}, ReadAs: []string{"putts were read as feet"},
		Total: ingest.Tally{Records: 12, Kept: 11, Refused: 1}, Causes: map[plots.Cause]int{{Field: "lie", Expected: "expected a known word"}: 1},
	}}
	for _, chart := range charts {
		r.Pictures = append(r.Pictures, Picture{chart, draw(chart)})
	}
	return r
}

func pagesOf(tb testing.TB, r *Report) map[string]string {
	tb.Helper()
	pages := map[string]string{}
	if err := r.Write(func(name string, content []byte) error {
		pages[name] = string(content)
		return nil
	}); err != nil {
		tb.Fatal(err)
	}
	return pages
}

// everyPage are pages of all kinds by name.
func everyPage(t *testing.T) map[string]string {
	t.Helper()
	all := map[string]string{}
	for name, r := range map[string]*Report{
		"demo": reportOf(demoFigures(), plots.Yards), "metres": reportOf(demoFigures(), plots.Metres),
		"squad": reportOf(squadFigures(), plots.Yards), "one round": reportOf(roundFigures(), plots.Yards),
	} {
		for file, content := range pagesOf(t, r) {
			all[name+"/"+file] = content
		}
	}
	return all
}

// text is a page without its marks and pictures, one blank for every gap.
func text(page string) string {
	page = regexp.MustCompile(`(?s)<style>.*?</style>`).ReplaceAllString(page, "")
	page = regexp.MustCompile(`<[^>]*>`).ReplaceAllString(page, " ")
	page = strings.NewReplacer("&#43;", "+", "&#39;", "'", "&amp;", "&", plots.NoBreak, " ").Replace(page)
	return strings.Join(strings.Fields(page), " ")
}

func TestPageOpensWithTheSeasonAndThreeThingsToWorkOn(t *testing.T) {
	page := text(pagesOf(t, reportOf(demoFigures(), plots.Yards))[Name])
	at := 0
	for _, want := range []string{
		"46 rounds from 7 March to 24 October 2026: 74.1 strokes a round, 2.5 over par (90 % interval 1.9 to 3.1), and 4.4 strokes (3.8 to 5.0) a round behind the benchmark",
		"Three things to work on", "Tee shots on holes of 500–550 yards", "0.7 strokes a round behind the benchmark", "90 % interval 0.5 to 0.8. Chance that it is really behind: over 99 %.",
		"ask a doctor first",
		"Scoring", "Off the tee", "Approach", "Short game", "Putting", "Decisions", "Trend", "Goal", "Handicap, an estimate", "How it was computed", "How your files were read", "What the words mean",
		"Of 826 complete holes", "Only an authorised association issues a Handicap Index",
	} {
		i := strings.Index(page[at:], want)
		if i < 0 {
			t.Fatalf("after %.60q… the page does not say %q", page[max(0, at-60):], want)
		}
		at += i
	}
}

func TestPagesAreSoundDocuments(t *testing.T) {
	pixels := regexp.MustCompile(`base64,[^"]{100,}`)
	for name, page := range everyPage(t) {
		page = pixels.ReplaceAllString(page, "base64,pixels")
		for _, forbidden := range []string{"<script", "http://", "https://", "NaN", "Inf", "%!", "<no value>", "ZgotmplZ", " style=", "\u2068", "\u2069"} {
			if strings.Contains(page, forbidden) {
				t.Errorf("%s holds %q", name, forbidden)
			}
		}
		last := 0
		for i, m := range regexp.MustCompile(`<h([1-6])`).FindAllStringSubmatch(page, -1) {
			level := int(m[1][0] - '0')
			if level > last+1 || i > 0 && level == 1 {
				t.Errorf("%s: heading %d follows heading %d", name, level, last)
			}
			last = level
		}
		ids := map[string]bool{}
		for _, m := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(page, -1) {
			if ids[m[1]] {
				t.Errorf("%s: two elements are %q", name, m[1])
			}
			ids[m[1]] = true
		}
		for _, m := range regexp.MustCompile(`(?:href="#|aria-labelledby=")([^"]*)"`).FindAllStringSubmatch(page, -1) {
			if !ids[m[1]] {
				t.Errorf("%s: nothing is %q", name, m[1])
			}
		}
		for _, m := range regexp.MustCompile(`<img [^>]*>`).FindAllString(page, -1) {
			if !regexp.MustCompile(`^<img src="data:image/png;base64,[^"]+" width="\d+" height="\d+" alt="[^"]{20,}">$`).MatchString(m) {
				t.Errorf("%s: an image is not whole: %.80s … %s", name, m, m[max(0, len(m)-80):])
			}
		}
		for _, row := range regexp.MustCompile(`(?s)<table.*?</table>`).FindAllString(page, -1) {
			head := strings.Count(row, `<th scope="col"`)
			for _, line := range regexp.MustCompile(`(?s)<tr>\s*(<th scope="row">.*?)</tr>`).FindAllStringSubmatch(row, -1) {
				if cells := strings.Count(line[1], "<td") + 1; cells != head {
					t.Errorf("%s: a row of %d cells under %d headings: %s", name, cells, head, text(line[1]))
				}
			}
		}
	}
}

func TestSameFiguresGiveTheSamePage(t *testing.T) {
	first, again := pagesOf(t, reportOf(squadFigures(), plots.Yards)), pagesOf(t, reportOf(squadFigures(), plots.Yards))
	if !maps.Equal(first, again) {
		t.Error("two runs give different bytes")
	}
}

func TestMetresLeaveNoYardsAndNoFeet(t *testing.T) {
	page := text(pagesOf(t, reportOf(demoFigures(), plots.Metres))[Name])
	page = page[:strings.LastIndex(page, "How it was computed")] // sources name the yard
	for _, m := range regexp.MustCompile(`.{0,40}\b(yards?|yd|ft|feet|foot)\b.{0,20}`).FindAllString(page, -1) {
		t.Errorf("in metres: %s", m)
	}
}

func TestSquadHasAPageAPlayerAndOneThatLeadsToThem(t *testing.T) {
	pages := pagesOf(t, reportOf(squadFigures(), plots.Yards))
	if len(pages) != 4 {
		t.Fatalf("pages %v, expected one of the squad and three of players", slices.Sorted(maps.Keys(pages)))
	}
	for name, page := range pages {
		if name == Name {
			continue
		}
		if !strings.Contains(pages[Name], `<a href="`+name+`">`) {
			t.Errorf("the squad's page does not lead to %s", name)
		}
		if !strings.Contains(page, `<a href="../../report.html">All players</a>`) || strings.Count(page, "<img ") < 2 {
			t.Errorf("%s leads not back, or has no charts", name)
		}
	}
}

func TestManyPlayersHavePagesWhenAskedFor(t *testing.T) {
	figures := &metrics.Results{}
	for i := range mostPages + 1 {
		figures.Seasons = append(figures.Seasons, metrics.Season{Player: fmt.Sprintf("P%02d", i), Rounds: 1})
	}
	r := &Report{Figures: figures}
	pages := pagesOf(t, r)
	if len(pages) != 1 || !strings.Contains(text(pages[Name]), "--player NAME") || !strings.Contains(r.WithoutPages(), "21") {
		t.Errorf("%d pages, and said: %s", len(pages), r.WithoutPages())
	}
	r.Asked = true
	if pages := pagesOf(t, r); len(pages) != mostPages+2 || r.WithoutPages() != "" {
		t.Errorf("asked for by name, %d pages, and said: %s", len(pages), r.WithoutPages())
	}
}

func TestEveryChartOfAPlayerStandsOnThePage(t *testing.T) {
	r := reportOf(demoFigures(), plots.Yards)
	page := pagesOf(t, r)[Name]
	for _, picture := range r.Pictures {
		if !strings.Contains(page, `<figure id="chart-`+picture.Name+`">`) {
			t.Errorf("the page has no chart %s", picture.Name)
		}
	}
	if len(r.Pictures) < 14 {
		t.Errorf("%d charts of the demo season", len(r.Pictures))
	}
}

func TestAMissingChartIsASentenceInItsPlace(t *testing.T) {
	r := &Report{Figures: &metrics.Results{Seasons: []metrics.Season{{Player: "A", Rounds: 1}}}, Missing: []plots.Missing{{Name: "aim", Reason: "No shot has a logged miss."}}}
	if page := pagesOf(t, r)[Name]; !strings.Contains(page, `<p class="missing" id="chart-aim">No chart here. No shot has a logged miss.</p>`) {
		t.Error("the page does not say why there is no chart of aim")
	}
}

func BenchmarkPage(b *testing.B) {
	figures := demoFigures()
	drawn := drawnReport(b, figures, plots.Yards)
	for name, report := range map[string]func() *Report{
		"with its charts": func() *Report { return drawnReport(b, figures, plots.Yards) },
		"alone":           func() *Report { return drawn },
	} {
		b.Run(name, func(b *testing.B) {
			size := 0
			for b.Loop() {
				for _, page := range pagesOf(b, report()) {
					size = len(page)
				}
			}
			b.ReportMetric(float64(size), "bytes/page")
		})
	}
}
