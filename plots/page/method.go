package page

import (
	"strings"

	"roundmill/metrics"
	"roundmill/plots"
)

// method is how the figures came about, what they are measured against, and
// what is not in them.
func (r *Report) method(figures *metrics.Results, missing []plots.Missing) section {
	s := section{ID: "method", Heading: "How it was computed"}
	s.say("Every stroke of a complete hole is set against the benchmark from where it was played and where it finished; the differences are strokes gained, which are added up by part of the game, distance and lie. "+
		"What to work on first is ranked by the strokes a round behind the benchmark, each part drawn towards the mean of its class the more, the fewer strokes it has (empirical Bayes).",
		"Intervals are 90 %. Those of strokes gained and of scores come from drawing whole rounds anew (bootstrap, 2,000 times; where 10 rounds or more tell, mostly computed, as the limit of ever more draws), because the shots of one round are not independent; those of medians from order statistics, those of shares by Wilson's method. Under five rounds there are none. A figure is printed with the digits that its interval supports.",
		"A comparison of many groups finds some that stand out by chance; where one of several does, the text says so.")
	sources := list{Heading: "Benchmark and sources"}
	if len(figures.StrokesGained) > 0 {
		sources.Items = append(sources.Items, "Benchmark: "+name(figures.StrokesGained[0].Baseline)+".")
	}
	if about := r.Display.BaselineSource; about != "" {
		sources.Items = append(sources.Items, about)
	}
	sources.Items = append(sources.Items,
		"Plays-like distance: 1 % longer per mph into the wind, half a per cent shorter per mph down the wind (Golf Monthly, How to calculate distance in the wind); one yard per yard of climb (common practice).",
		"Handicap: Rules of Handicapping, World Handicap System (R&A and USGA, 2024).")
	s.Lists = append(s.Lists, sources)
	if left := r.leftOut(figures.Warnings, missing); len(left.Items) > 0 {
		s.Lists = append(s.Lists, left)
	}
	s.Cautions = append(s.Cautions, "A season is one sample of a golfer, and a gap to a benchmark is not the same as what practice can win. Decide what to practise with a coach, and see a doctor about pain or injury.")
	return s
}

// leftOut is what the figures do not hold, and which charts there are not.
func (r *Report) leftOut(warnings []metrics.Warning, missing []plots.Missing) list {
	left := list{Heading: "What to bear in mind, and what was left out"}
	for _, warning := range warnings {
		left.Items = append(left.Items, plots.Sentence(warning.Text)+".")
	}
	for _, gap := range missing {
		left.Items = append(left.Items, "No chart "+gap.Name+": "+gap.Reason)
	}
	return left
}

// filesRead is how the input was read, file by file.
func (r *Report) filesRead() section {
	s := section{ID: "files", Heading: "How your files were read"}
	total := r.Reading.Total
	s.say(readWords(r.Reading))
	t := table{ID: "files", Caption: "Files", Columns: columns("File", "Rounds", "Records", "Kept", "Refused")}
	const most = 40
	for i, file := range r.Reading.Files {
		if i == most {
			t.Note = plots.Counted(len(r.Reading.Files)-most, "file more is", "files more are") + " in run.json."
			break
		}
		tally := r.Reading.Tallies[i]
		t.Rows = append(t.Rows, []string{isolated(file.Name, longestNote), plots.Count(r.Reading.Rounds[i]), plots.Count(int(tally.Records)), plots.Count(int(tally.Kept)), plots.Count(int(tally.Refused))})
	}
	s.add(t)
	if as := filesAs(r.Reading); len(as.Items) > 0 {
		s.Lists = append(s.Lists, as)
	}
	notes := list{Heading: "Notes"}
	for i, line := range r.Reading.ReadAs {
		if i == most {
			notes.Items = append(notes.Items, plots.Counted(len(r.Reading.ReadAs)-most, "note more is", "notes more are")+" in run.json.")
			break
		}
		notes.Items = append(notes.Items, line+".")
	}
	if total.Scorecards > 0 {
		notes.Items = append(notes.Items, plots.Counted(int(total.Scorecards), "record kept is a hole of a scorecard, which counts", "records kept are holes of scorecards, which count")+" for scores, goal and handicap only.")
	}
	if total.Repeated > 0 {
		notes.Items = append(notes.Items, plots.Counted(int(total.Repeated), "record stood twice and was", "records stood twice and were")+" kept once.")
	}
	if total.Narrowed > 0 {
		notes.Items = append(notes.Items, plots.Counted(int(total.Narrowed), "record was", "records were")+" left out because of --player, --course, --from or --to.")
	}
	if len(notes.Items) > 0 {
		s.Lists = append(s.Lists, notes)
	}
	if refused := refusedBy(r.Reading.Causes); len(refused.Items) > 0 {
		s.Lists = append(s.Lists, refused)
	}
	return s
}

// filesAs is how files were read, alike ones together.
func filesAs(reading plots.Reading) list {
	as := list{Heading: "What they were read as"}
	for _, files := range reading.FilesAlike() {
		names := make([]string, len(files.Names))
		for i, file := range files.Names {
			names[i] = isolated(file, longestNote)
		}
		if files.More > 0 {
			names = append(names, plots.Count(files.More)+" more")
		}
		as.Items = append(as.Items, listed(names)+": "+strings.Join(files.How, "; ")+".")
	}
	return as
}

// readWords counts what was read, kept, skipped and refused.
func readWords(reading plots.Reading) string {
	said := plots.Counted(int(reading.Total.Records), "record was", "records were") + " read from " +
		plots.Counted(len(reading.Files), "file", "files") + ", and " + plots.Count(int(reading.Total.Kept)) + " kept"
	if skipped := int(reading.Total.Skipped); skipped > 0 {
		said += "; " + plots.Counted(skipped, "was no shot, such as a total, and was", "were no shots, such as totals, and were") + " skipped"
	}
	if reading.Total.Refused == 0 {
		return said + "; none was refused."
	}
	return said + "; " + plots.Counted(int(reading.Total.Refused), "was", "were") + " refused: rejects.csv says which, and what to do."
}

// refusedBy are the causes of rejects, the most common first.
func refusedBy(causes map[plots.Cause]int) list {
	refused := list{Heading: "Rejects, by cause"}
	for _, cause := range plots.CommonestFirst(causes) {
		refused.Items = append(refused.Items, plots.Count(causes[cause])+" × "+cause.String())
	}
	return refused
}
