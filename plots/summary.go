package plots

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"roundmill/metrics"
)

// Outcome is what a run left behind, for the last lines of the summary.
type Outcome struct {
	Folder  string
	Refused int
	Charts  int
	Missing []Missing

	Page         string // file name of the coaching page, empty when there is none
	WithoutPages string // why players have no pages of their own
}

const summaryWidth = 80

// mostSummaries is how many players the terminal summary shows one by one.
const mostSummaries = 3

// WriteSummary writes what a season comes to, for a terminal of 80 columns.
func WriteSummary(w io.Writer, figures *metrics.Results, d Display, outcome Outcome) error {
	out := &strings.Builder{}
	if len(figures.Seasons) > mostSummaries {
		writeSquad(out, figures)
	} else {
		for _, season := range figures.Seasons {
			writePlayer(out, figures, d, season)
		}
	}
	if len(figures.StrokesGained) > 0 {
		writeWrapped(out, "Benchmark: ", figures.StrokesGained[0].Baseline)
	}
	const mostWarnings = 3
	for i, warning := range figures.Warnings {
		if i == mostWarnings {
			fmt.Fprintf(out, "... and %s in summary.json\n", Counted(len(figures.Warnings)-i, "warning more", "warnings more"))
			break
		}
		writeWrapped(out, "Mind: ", warning.Text+inBrackets(warning.Player))
	}
	const mostMissing = 3
	for i, m := range outcome.Missing {
		if i == mostMissing {
			fmt.Fprintf(out, "... and %s in summary.json\n", Counted(len(outcome.Missing)-i, "chart more that is not there", "charts more that are not there"))
			break
		}
		writeWrapped(out, "No chart "+m.Name+": ", m.Reason)
	}
	if outcome.Refused > 0 {
		fmt.Fprintf(out, "%s in %s\n", Counted(outcome.Refused, "reject, listed", "rejects, listed"), filepath.Join(outcome.Folder, "rejects.csv"))
	}
	if outcome.WithoutPages != "" {
		writeWrapped(out, "Pages: ", outcome.WithoutPages)
	}
	if outcome.Page != "" {
		fmt.Fprintf(out, "Page:    %s\n", filepath.Join(outcome.Folder, outcome.Page))
	}
	fmt.Fprintf(out, "Results: %s\n", outcome.Folder)
	if outcome.Charts > 0 {
		fmt.Fprintf(out, "Charts:  %s\n", filepath.Join(outcome.Folder, "charts"))
	}
	_, err := io.WriteString(w, strings.ReplaceAll(out.String(), NoBreak, " "))
	return err
}

// shortName is a player's name, of no more than 24 letters.
func shortName(name string) string {
	const most = 24
	letters := []rune(onTerminal(name))
	if len(letters) > most {
		letters = append(letters[:most-1], '…')
	}
	return string(letters)
}

func inBrackets(player string) string {
	if player == "" {
		return ""
	}
	return " (" + shortName(player) + ")"
}

func writeWrapped(out io.Writer, label, text string) {
	line := label
	for _, word := range strings.Fields(text) {
		if runes := len([]rune(line)) + 1 + len([]rune(word)); runes > summaryWidth && line != label {
			fmt.Fprintln(out, strings.TrimRight(line, " "))
			line = "  "
		}
		line += word + " "
	}
	fmt.Fprintln(out, strings.TrimRight(line, " "))
}

func writePlayer(out io.Writer, figures *metrics.Results, d Display, season metrics.Season) {
	title := d.season(season, figures)
	fmt.Fprintf(out, "%s · %s\n\n", title.countedOf(shortName(season.Player)), Counted(int(season.Shots), "shot", "shots"))
	if season.Holes > 0 {
		toPar := gain{season.ToPar, season.ToParLo, season.ToParHi}
		said := toPar.printed()
		if toPar.hasInterval() {
			said += fmt.Sprintf(" (90 %% interval %s to %s)", Signed(season.ToParLo, toPar.decimals()), Signed(season.ToParHi, toPar.decimals()))
		}
		fmt.Fprintf(out, "Score a round   %s, %s to par\n", Number(season.Score, toPar.decimals()), said)
		if holes := HolesBehind(season); holes != "" {
			fmt.Fprintf(out, "                %s\n", holes)
		}
		fmt.Fprintf(out, "                %s fairways, %s greens, %s up and down\n",
			Percent(season.FairwayShare), Percent(season.GreenShare), Percent(season.UpAndDownShare))
		fmt.Fprintf(out, "                %s putts, %s penalties, %s birdies, %s doubles or worse\n\n",
			Number(season.Putts, 1), Number(season.Penalties, 1), Number(season.BirdiesOrBetter, 1), Number(season.DoublesOrWorse, 1))
	}
	own := figures.Of(season.Player)
	writeGains(out, own.StrokesGained)
	writePriorities(out, d, own.Priorities)
	writeProximity(out, d, own.Approach)
}

func writeGains(out io.Writer, rows []metrics.StrokesGained) {
	if len(rows) == 0 {
		return
	}
	fmt.Fprintf(out, "%-18s%8s   %-18s%8s\n", "Strokes gained", "a round", "90 % interval", "strokes")
	line := func(name string, row metrics.StrokesGained) {
		interval := "too few rounds"
		decimals := IntervalDecimals(row.PerRound, row.PerRoundLo, row.PerRoundHi)
		if !math.IsNaN(row.PerRoundLo) {
			interval = fmt.Sprintf("%s to %s", Signed(row.PerRoundLo, decimals), Signed(row.PerRoundHi, decimals))
		}
		fmt.Fprintf(out, "  %-16s%8s   %-18s%8s\n", name, Signed(row.PerRound, decimals), interval, Count(int(row.N)))
	}
	for _, part := range gameParts {
		for _, row := range rows {
			if row.GroupKind == metrics.ByClass && row.Group == part.class {
				line(part.name, row)
			}
		}
	}
	for _, row := range rows {
		if row.GroupKind == metrics.ByTotal {
			line("All strokes", row)
		}
	}
	fmt.Fprintln(out)
}

func writeProximity(out io.Writer, d Display, rows []metrics.ApproachProximity) {
	type pair struct{ fairway, rough *metrics.ApproachProximity }
	var bands []float64
	cells := map[float64]*pair{}
	for i := range rows {
		row := &rows[i]
		if row.LieGroup != metrics.FromFairway && row.LieGroup != metrics.FromRough {
			continue
		}
		if cells[row.BandFromYd] == nil {
			cells[row.BandFromYd] = &pair{}
			bands = append(bands, row.BandFromYd)
		}
		if row.LieGroup == metrics.FromFairway {
			cells[row.BandFromYd].fairway = row
		} else {
			cells[row.BandFromYd].rough = row
		}
	}
	if len(bands) == 0 {
		return
	}
	half := func(row *metrics.ApproachProximity) string {
		if row == nil {
			return fmt.Sprintf("%5s %8s %-10s%7s", "–", "", "", "")
		}
		decimals := 0
		if d.Units == Metres {
			decimals = 1
		}
		interval := ""
		if !math.IsNaN(row.MedianLoFt) {
			interval = "(" + Number(d.Units.FromFeet(row.MedianLoFt), decimals) + "–" + Number(d.Units.FromFeet(row.MedianHiFt), decimals) + ")"
		}
		green := sharePrinted(int64(math.Round(row.GreenShare*float64(row.N))), row.N)
		if row.N >= fewestSolid {
			green = Percent(row.GreenShare)
		}
		return fmt.Sprintf("%5s %8s %-10s%7s", Count(int(row.N)), Number(d.Units.FromFeet(row.MedianFt), decimals), interval, green)
	}
	unit := d.Units.ShortSymbol()
	fmt.Fprintf(out, "%-10s%-33s  %s\n", "Approach", "  fairway or tee", "  rough")
	head := fmt.Sprintf("%5s %8s %-10s%7s", "shots", "median", unit+" (90 %)", "green")
	fmt.Fprintf(out, "  %-8s%s  %s\n", d.Units.Long(), head, head)
	for _, from := range slices.Sorted(slices.Values(bands)) {
		cell := cells[from]
		to := cmp.Or(cell.fairway, cell.rough).BandToYd
		fmt.Fprintln(out, strings.TrimRight(fmt.Sprintf("  %-8s%s  %s", d.Units.Band(from, to), half(cell.fairway), half(cell.rough)), " "))
	}
	fmt.Fprintln(out)
}

// writePriorities lists the first three, each with the chance that it really is
// below the benchmark.
func writePriorities(out io.Writer, d Display, rows []metrics.Priority) {
	const most = 3
	shown := 0
	for rank := metrics.Rank(1); rank <= most; rank++ {
		for _, row := range rows {
			if row.Rank != rank || row.StrokesToGain <= 0 {
				continue
			}
			if shown == 0 {
				fmt.Fprintf(out, "%-46s%8s   %s\n", "First to look at, with a coach", "a round", "really below")
			}
			fmt.Fprintf(out, "  %-44.44s%8s   %s\n", partOfGame(row, d.Units), Signed(-row.StrokesToGain, 1), Chance(row.ChanceBelow))
			shown++
		}
	}
	if shown > 0 {
		fmt.Fprintf(out, "  About pain or injury, ask a doctor first.\n\n")
	}
}

// writeSquad is a line a player, in order of names: it ranks nobody.
func writeSquad(out io.Writer, figures *metrics.Results) {
	fmt.Fprintf(out, "%s\n\n", Counted(len(figures.Seasons), "player", "players"))
	fmt.Fprintf(out, "%-24s%7s%9s   %-16s %8s\n", "", "rounds", "to par", "90 % interval", "gained")
	const most = 20
	for i, season := range figures.Seasons {
		if i == most {
			fmt.Fprintf(out, "... and %d more in tables/seasons.parquet\n", len(figures.Seasons)-most)
			break
		}
		interval := "too few rounds"
		if !math.IsNaN(season.ToParLo) {
			interval = Signed(season.ToParLo, 1) + " to " + Signed(season.ToParHi, 1)
		}
		gained := math.NaN()
		for _, row := range figures.StrokesGained {
			if row.Player == season.Player && row.GroupKind == metrics.ByTotal {
				gained = row.PerRound
			}
		}
		fmt.Fprintf(out, "%-24.24s%7s%9s   %-16s %8s\n", shortName(season.Player), Count(int(season.Rounds)), Signed(season.ToPar, 1), interval, Signed(gained, 1))
	}
	fmt.Fprintln(out)
}
