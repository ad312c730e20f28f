package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"roundmill/ingest"
	"roundmill/ingest/disk"
	"roundmill/metrics"
	"roundmill/plots"
	"roundmill/transform"
	"roundmill/transform/baseline"
)

// settings is the command line, understood.
type settings struct {
	paths                                      []string
	out, starter                               string
	demo, check, strict, noCharts, quiet, json bool
	help, version                              bool
	workers                                    int

	reading   ingest.Options
	transform transform.Options
	figures   metrics.Options
	display   plots.Display
	given     []string // the options given, for run.json

	disk   disk.Disk // where the results are written
	memory int       // bytes that each spool keeps in memory; 0: 4 MB

	ownBaseline bool // measure against a table made from the log itself
}

// flagTexts are the flags that have to be understood, as given.
type flagTexts struct {
	columns, lies, baseline, bands, units, puttUnit string
	shortGame, reach                                float64
	players                                         []string
	course, from, to, goal, split                   string
	seed                                            uint64
}

func newFlags(s *settings, t *flagTexts) *pflag.FlagSet {
	flags := pflag.NewFlagSet("roundmill", pflag.ContinueOnError)
	flags.SortFlags = false
	flags.SetOutput(io.Discard)
	flags.StringVarP(&s.out, "out", "o", "roundmill-out", "write the results into `DIR`")
	flags.BoolVar(&s.demo, "demo", false, "run on the season that is built in (invented data)")
	flags.StringVar(&s.starter, "starter", "", "write a shot log to fill in to `FILE`, never over an existing one")
	flags.BoolVar(&s.check, "check", false, "read and judge the input, write nothing")
	flags.BoolVar(&s.strict, "strict", false, "fail if any record is refused, and write nothing")
	flags.StringArrayVar(&t.players, "player", nil, "only this player, by `NAME` (may be repeated)")
	flags.StringVar(&t.course, "course", "", "only rounds on the course `NAME`")
	flags.StringVar(&t.from, "from", "", "only rounds from `DATE` on, such as 2026-05-31")
	flags.StringVar(&t.to, "to", "", "only rounds up to `DATE`")
	flags.StringVar(&t.columns, "columns", "", "`FILE` that says what your column names mean: their name = our name")
	flags.StringVar(&t.lies, "lies", "", "`FILE` that adds lie words or moves them: word = category")
	flags.StringVar(&t.puttUnit, "putt-unit", "", "putts are in `UNIT`: ft, yd or m (default: by the header, else ft)")
	flags.StringVar(&t.baseline, "baseline", "", "measure strokes gained against the table in `FILE`, or self: your own rounds")
	flags.StringVar(&t.goal, "goal", "", "chance of a round of `N`, of +2 or -1 to par, or of par")
	flags.StringVar(&t.split, "split", "", "compare before `DATE` with after (default: the halves of the season)")
	flags.StringVar(&t.bands, "bands", "", "edges of the yardage bands, in --units: `LIST` such as 50,75,100")
	flags.Float64Var(&t.shortGame, "short-game", 0, "strokes from within `DISTANCE` are short game (default 50 yd)")
	flags.Float64Var(&t.reach, "reach", 0, "approaches from beyond `DISTANCE` cannot reach (default 250 yd)")
	flags.StringVar(&t.units, "units", "yd", "`UNIT` of distances people see, and of the flags: yd or m")
	flags.Uint64Var(&t.seed, "seed", 1, "`NUMBER` that seeds the bootstrap")
	flags.BoolVar(&s.noCharts, "no-charts", false, "tables only: no charts and no page")
	flags.BoolVar(&s.json, "json", false, "print summary.json in place of the summary")
	flags.IntVar(&s.workers, "workers", 0, "work on `N` cores (default: all)")
	flags.BoolVar(&s.quiet, "quiet", false, "print nothing but what was refused")
	flags.BoolVar(&s.version, "version", false, "print the version")
	flags.BoolVarP(&s.help, "help", "h", false, "print this help")
	return flags
}

// parseSettings understands the command line, or says what is wrong with it.
func parseSettings(args []string) (*settings, error) {
	s, t := &settings{disk: disk.OS{}}, &flagTexts{}
	flags := newFlags(s, t)
	if err := flags.Parse(args); err != nil {
		return nil, fmt.Errorf("%w; see roundmill --help", err)
	}
	s.paths = flags.Args()
	if s.help || s.version {
		return s, nil
	}
	flags.Visit(func(f *pflag.Flag) {
		if f.Name != "out" && f.Name != "workers" {
			value := f.Value.String()
			if ingest.FromTheTop(value) {
				value = filepath.Base(value)
			}
			s.given = append(s.given, "--"+f.Name+"="+value)
		}
	})
	switch {
	case s.starter != "" && (len(s.paths) > 0 || s.demo || s.check):
		return nil, errors.New("--starter writes a log and reads none: name no files beside it")
	case s.starter != "":
		return s, nil
	case s.check && s.json:
		return nil, errors.New("--check writes no summary.json for --json to print: leave out one of them")
	case len(s.paths) == 0 && !s.demo:
		return nil, errors.New("no input: name files or folders of shot logs, or try --demo; see roundmill --help")
	case len(s.paths) > 0 && s.demo:
		return nil, errors.New("--demo reads the built-in season: name no files beside it")
	case flags.Changed("workers") && s.workers < 1:
		return nil, fmt.Errorf("--workers %d: expected 1 or more", s.workers)
	case s.out == "":
		return nil, errors.New("--out: expected a folder")
	}
	for _, distance := range []string{"short-game", "reach"} {
		if flags.Changed(distance) && flags.Lookup(distance).Value.String() == "0" {
			return nil, fmt.Errorf("--%s 0: expected a distance above 0", distance)
		}
	}
	if s.workers == 0 {
		s.workers = runtime.GOMAXPROCS(0)
	}
	for _, understand := range []func(*settings) error{t.forReading, t.forTransform, t.forFigures} {
		if err := understand(s); err != nil {
			return nil, err
		}
	}
	s.display = plots.Display{Units: plots.Units(t.units), Invented: s.demo, BaselineSource: s.transform.Baseline.Source, ShortGameYd: s.transform.ShortGameYd}
	return s, nil
}

func (t *flagTexts) forReading(s *settings) (err error) {
	s.reading = ingest.Options{Lies: ingest.DefaultLies(), Workers: s.workers}
	s.reading.Narrow = ingest.Narrow{Players: t.players, Course: t.course}
	for _, day := range []struct {
		flag, text string
		into       *time.Time
	}{{"--from", t.from, &s.reading.Narrow.From}, {"--to", t.to, &s.reading.Narrow.To}} {
		if day.text == "" {
			continue
		}
		if *day.into, err = time.Parse(time.DateOnly, day.text); err != nil {
			return fmt.Errorf("%s %q: expected a date such as 2026-05-31", day.flag, day.text)
		}
	}
	switch unit, err := ingest.ParseUnit(t.puttUnit); {
	case t.puttUnit == "":
	case err != nil || unit != ingest.Feet && unit != ingest.Yards && unit != ingest.Metres:
		return fmt.Errorf("--putt-unit %q: expected ft, yd or m", t.puttUnit)
	default:
		s.reading.PuttUnit = unit
	}
	if err := withFile(t.columns, func(file *os.File) (err error) {
		s.reading.Columns, err = ingest.ReadMapping(t.columns, file)
		return err
	}); err != nil {
		return fmt.Errorf("--columns: %w", err)
	}
	if err := withFile(t.lies, func(file *os.File) error { return s.reading.Lies.ReadLies(t.lies, file) }); err != nil {
		return fmt.Errorf("--lies: %w", err)
	}
	return nil
}

func (t *flagTexts) forTransform(s *settings) error {
	if t.units != string(plots.Yards) && t.units != string(plots.Metres) {
		return fmt.Errorf("--units %q: expected yd or m", t.units)
	}
	perYard := plots.Units(t.units).FromYards(1)
	s.transform = transform.Options{Lies: s.reading.Lies}.WithDefaults()
	if perYard != 1 {
		s.transform.BandsYd = nil
		for metres := 50.0; metres <= 230; metres += 20 {
			s.transform.BandsYd = append(s.transform.BandsYd, metres/perYard)
		}
	}
	for _, bound := range []struct {
		flag  string
		value float64
		into  *float64
	}{{"--short-game", t.shortGame, &s.transform.ShortGameYd}, {"--reach", t.reach, &s.transform.ReachYd}} {
		switch {
		case !(bound.value >= 0 && bound.value <= 700):
			return fmt.Errorf("%s %v: expected a distance up to 700", bound.flag, bound.value)
		case bound.value > 0:
			*bound.into = bound.value / perYard
		}
	}
	if t.bands != "" {
		edges, err := parseBands(t.bands, perYard)
		if err != nil {
			return err
		}
		s.transform.BandsYd = edges
	}
	if t.baseline == "self" {
		s.ownBaseline = true
		return nil
	}
	if err := withFile(t.baseline, func(file *os.File) (err error) {
		s.transform.Baseline, err = baseline.Read(t.baseline, file)
		return err
	}); err != nil {
		return fmt.Errorf("--baseline: %w", err)
	}
	return nil
}

func (t *flagTexts) forFigures(s *settings) (err error) {
	s.figures = metrics.Options{
		Baseline: s.transform.Baseline.Name, Table: s.transform.Baseline, BandsYd: s.transform.BandsYd,
		Metres: plots.Units(t.units) == plots.Metres, Seed: t.seed,
	}
	if t.split != "" {
		if s.figures.Split, err = time.Parse(time.DateOnly, t.split); err != nil {
			return fmt.Errorf("--split %q: expected a date such as 2026-05-31", t.split)
		}
	}
	const leastScore, mostScore, mostToPar = 50, 150, 40
	n, err := strconv.Atoi(t.goal)
	switch {
	case t.goal == "":
	case t.goal == "par":
		s.figures.Goal = metrics.GoalToPar(0)
	case err == nil && n >= leastScore && n <= mostScore && t.goal[0] != '+':
		s.figures.Goal = metrics.GoalScore(n)
	case err == nil && max(n, -n) <= mostToPar && (n == 0 || strings.ContainsAny(t.goal[:1], "+-")):
		s.figures.Goal = metrics.GoalToPar(n)
	default:
		return fmt.Errorf("--goal %q: expected a score such as 72, strokes to par such as +2 or -1, or par", t.goal)
	}
	return nil
}

// parseBands reads rising edges such as 50,75,100.
func parseBands(list string, perYard float64) (edges []float64, err error) {
	for edge := range strings.SplitSeq(list, ",") {
		value, err := strconv.ParseFloat(strings.TrimSpace(edge), 64)
		if err != nil || !(value >= 0 && value <= 700) || len(edges) > 0 && value/perYard <= edges[len(edges)-1] {
			return nil, fmt.Errorf("--bands %q: expected rising distances with commas between, such as 50,75,100", list)
		}
		edges = append(edges, value/perYard)
	}
	if len(edges) < 2 || len(edges) > 60 {
		return nil, fmt.Errorf("--bands %q: expected two to sixty edges", list)
	}
	return edges, nil
}

// withFile opens a file that a flag names, if it names one.
func withFile(name string, read func(*os.File) error) error {
	if name == "" {
		return nil
	}
	file, err := os.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	return read(file)
}

func usage() string {
	s, t := &settings{}, &flagTexts{}
	return `roundmill turns a season of golf shot logs into decisions.

Usage: roundmill [flags] PATH...

PATH is a CSV, JSON or Parquet file, a .gz, .zst or .zip of such, a folder of
them, a pattern such as *.csv, or - for standard input.

Examples:
  roundmill --demo                      see what comes out, on an invented season
  roundmill --starter log.csv           write a shot log to fill in
  roundmill --check logs/               what would be read, what refused, and why
  roundmill -o season logs/ may.json    results of all logs into the folder season
  roundmill --units m --from 2026-06-01 logs/
  roundmill --columns mine.txt shots.csv, where mine.txt says
      Dist = to_hole m
      Where = lie

Flags:
` + newFlags(s, t).FlagUsages() + `
Exit status: 0 done; 1 the run failed; 2 the command line is wrong; 3 --strict
met a reject, or no record was usable; 130 interrupted.
`
}
