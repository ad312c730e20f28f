package plots

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"roundmill/ingest"
)

// A Cause is what rejects of the same kind have in common.
type Cause struct{ Field, Expected string }

// CauseOf is the cause of a reject.
func CauseOf(r ingest.Reject) Cause {
	if r.Scope != ingest.RecordScope {
		return Cause{string(r.Scope), withoutNumbers(r.Expected)}
	}
	return Cause{r.Field, withoutNumbers(r.Expected)}
}

// String is the cause as people read it.
func (c Cause) String() string { return cmp.Or(c.Field, "record") + ": " + c.Expected }

// CommonestFirst are causes in the order of their counts, the largest first.
func CommonestFirst(causes map[Cause]int) []Cause {
	return slices.SortedFunc(maps.Keys(causes), func(a, b Cause) int {
		return cmp.Or(cmp.Compare(causes[b], causes[a]), cmp.Compare(a.Field, b.Field), cmp.Compare(a.Expected, b.Expected))
	})
}

// withoutNumbers lets expectations that differ in a number, or in the name
// of a place, count as one.
func withoutNumbers(text string) string {
	text, _, _ = strings.Cut(text, ", at ")
	words := strings.Fields(text)
	for i, word := range words {
		if strings.Trim(word, "0123456789") == "" {
			words[i] = "…"
		}
	}
	return strings.Join(words, " ")
}

// Reading is how the input was read, file by file.
type Reading struct {
	Files       []ingest.FileInfo
	FilesReadAs [][]string // how each of them was read
	Tallies     []ingest.Tally
	Rounds      []int
	Total       ingest.Tally
	Causes      map[Cause]int
	ReadAs      []string // what else there is to say
}

// WriteCheck writes the judgement of the input: a line a file, the causes of
// rejects with the most common first, and how the files were read.
func WriteCheck(w io.Writer, r Reading) error {
	out := &strings.Builder{}
	if len(r.Causes) > 0 {
		fmt.Fprintln(out)
	}
	const row = "%8s%9s%9s%9s  %s\n"
	fmt.Fprintf(out, row, "rounds", "records", "kept", "refused", "file")
	rounds := 0
	for i, file := range r.Files {
		tally := r.Tallies[i]
		rounds += r.Rounds[i]
		fmt.Fprintf(out, row, Count(r.Rounds[i]), Count(int(tally.Records)), Count(int(tally.Kept)), Count(int(tally.Refused)), onTerminal(file.Name))
	}
	if len(r.Files) != 1 {
		fmt.Fprintf(out, row, Count(rounds), Count(int(r.Total.Records)), Count(int(r.Total.Kept)), Count(int(r.Total.Refused)), "in all")
	}
	if r.Total.Scorecards > 0 {
		fmt.Fprintf(out, "of these kept, %s\n", Counted(int(r.Total.Scorecards), "scorecard hole", "scorecard holes"))
	}
	if r.Total.Repeated > 0 {
		fmt.Fprintf(out, "%s standing twice, kept once\n", Counted(int(r.Total.Repeated), "record", "records"))
	}
	if r.Total.Narrowed > 0 {
		fmt.Fprintf(out, "%s left out by --player, --course, --from or --to\n", Counted(int(r.Total.Narrowed), "record", "records"))
	}
	if r.Total.Skipped > 0 {
		fmt.Fprintf(out, "%s skipped: totals, comments, the header again\n", Counted(int(r.Total.Skipped), "line that is no shot", "lines that are no shots"))
	}
	writeCauses(out, r.Causes)
	if len(r.ReadAs) > 0 || len(r.FilesReadAs) > 0 {
		fmt.Fprintln(out, "\nHow your files were read")
		writeFilesReadAs(out, r)
		for _, line := range r.ReadAs {
			fmt.Fprintln(out, "  "+line)
		}
	}
	_, err := io.WriteString(w, strings.ReplaceAll(out.String(), NoBreak, " "))
	return err
}

// ReadAlike is how some files were read.
type ReadAlike struct {
	Names []string // the first three, as the user knows them
	More  int
	How   []string
}

// FilesAlike is how each file was read; files that were read alike stand together.
func (r Reading) FilesAlike() (alike []ReadAlike) {
	const most = 3
	places := map[string]int{}
	for i, lines := range r.FilesReadAs {
		if len(lines) == 0 {
			continue
		}
		how := strings.Join(lines, "\n")
		place, known := places[how]
		if !known {
			place = len(alike)
			places[how] = place
			alike = append(alike, ReadAlike{How: lines})
		}
		if files := &alike[place]; len(files.Names) < most {
			files.Names = append(files.Names, r.Files[i].Name)
		} else {
			files.More++
		}
	}
	return alike
}

func writeFilesReadAs(out io.Writer, r Reading) {
	for _, files := range r.FilesAlike() {
		names := make([]string, len(files.Names))
		for i, name := range files.Names {
			names[i] = onTerminal(name)
		}
		if files.More > 0 {
			names = append(names, fmt.Sprintf("and %s more", Count(files.More)))
		}
		fmt.Fprintf(out, "  %s\n    %s\n", strings.Join(names, ", "), strings.Join(files.How, "\n    "))
	}
}

// onTerminal makes a name from the input fit for a terminal, which knows other
// scripts and directions itself: what would steer it goes.
func onTerminal(name string) string {
	name = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			return -1
		}
		return r
	}, strings.ToValidUTF8(name, string(utf8.RuneError)))
	return strings.Join(strings.Fields(name), " ")
}

func writeCauses(out io.Writer, causes map[Cause]int) {
	if len(causes) == 0 {
		return
	}
	fmt.Fprintln(out, "\nRejects by cause, most common first")
	for _, cause := range CommonestFirst(causes) {
		fmt.Fprintf(out, "%8s  %s\n", Count(causes[cause]), cause)
	}
}

// PuttsReadAs says in which unit putts were read, and whether their median
// makes that doubtful.
func PuttsReadAs(settled string, medianFt int) string {
	how := "by the unit in the header, else as feet"
	if settled != "" {
		how = "as " + settled + ", by --putt-unit"
	}
	said := fmt.Sprintf("putts were read %s; the median first putt is %d ft", how, medianFt)
	const shortest, longest = 3, 60
	if medianFt < shortest || medianFt > longest {
		said += ", which is unusual: if that is wrong, name the unit with --putt-unit"
	}
	return said
}

// LastPuttsDoubted says that putts may be missing where those that end a hole
// are longer at the median than they can be when every putt is written down:
// what a first putt leaves is 3 ft and less, at any skill (common practice).
func LastPuttsDoubted(holes int64, medianFt int) string {
	const fewestHoles, longest = 9, 6
	if holes < fewestHoles || medianFt <= longest {
		return ""
	}
	return fmt.Sprintf("the putts that end %d holes are from %d ft at the median: the last line of a hole is read as holed, so add short putts that were not written down, or name the unit with --putt-unit", holes, medianFt)
}
