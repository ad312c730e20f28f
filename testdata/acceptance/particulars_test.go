package acceptance

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A particular is a small log that shows one thing the specification says.
type particular struct {
	name string
	says string // the specification
	log  string // lines of a shot log
	find string // a query for one value
	want string
}

const particularHeader = "date,round,hole,par,shot,lie,to_hole,left,finish_lie,long_short,left_right,penalty,holed"

var particulars = []particular{
	{
		name: "lie words are kept as written",
		says: "shot-log.md: as written, kept in lie",
		log:  "2026-09-01,1,1,3,1,Tee Box,150,,,,,,\n2026-09-01,1,1,3,2,green,9,,,,,,",
		find: "SELECT lie FROM theirs.shots WHERE shot = 1",
		want: "Tee Box",
	},
	{
		name: "a round without a complete hole has no score",
		says: "outputs.md: what is absent is null, never zero; level par would be a fine score for a round picked up",
		log:  "2026-09-01,1,1,4,1,tee,400,150,rough,,,,\n2026-09-01,1,1,4,2,rough,150,,,,,,no",
		find: "SELECT concat_ws(' ', score, to_par, strokes_gained) FROM theirs.rounds",
		want: "",
	},
	{
		name: "a green that finish_lie names is a green in regulation",
		says: "definitions.md: finish_category is that of finish_lie, else the next shot's; green_share counts this ball as on the green",
		log:  "2026-09-01,1,1,3,1,tee,120,15,green,,,,\n2026-09-01,1,1,3,2,collar,5,,,,,,\n2026-09-01,1,1,3,3,green,2,,,,,,",
		find: "SELECT green_in_regulation FROM theirs.holes",
		want: "true",
	},
	{
		name: "a miss along the line counts where the miss across is not known",
		says: "definitions.md: mean and spread of long_yd and of right_yd",
		log:  "2026-09-01,1,1,3,1,tee,160,,,-6,,,\n2026-09-01,1,1,3,2,green,9,,,,,,",
		find: "SELECT long_mean_yd FROM theirs.approach_proximity WHERE lie_group = 'all'",
		want: "-6",
	},
	{
		name: "days are days in every table",
		says: "outputs.md: DATE logical types",
		log:  "2026-09-01,1,1,3,1,tee,150,,,,,,\n2026-09-01,1,1,3,2,green,9,,,,,,",
		find: "SELECT typeof(from_date) FROM theirs.seasons",
		want: "DATE",
	},
	{
		name: "no absolute path is in the results",
		says: "architecture.md: no clock, host name or absolute path in any output",
		log:  "2026-09-01,1,1,3,1,tee,150,,,,,,\n2026-09-01,1,1,3,2,green,9,,,,,,",
		find: "SELECT DISTINCT source_file FROM theirs.shots",
		want: "log.csv",
	},
}

func TestParticulars(t *testing.T) {
	for _, p := range particulars {
		t.Run(p.name, func(t *testing.T) {
			if found := p.found(t); found != p.want {
				t.Errorf("found %q, expected %q (%s)", found, p.want, p.says)
			}
		})
	}
}

func (p particular) found(t *testing.T) string {
	t.Helper()
	log := filepath.Join(t.TempDir(), "log.csv")
	if err := os.WriteFile(log, []byte(particularHeader+"\n"+p.log+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(t.TempDir(), "out")
	command(t, ".", program, "--quiet", "--no-charts", "--out", out, log)
	db := openDatabase(t)
	db.attach(out)
	db.exec("CREATE VIEW theirs.seasons AS FROM '%s/tables/seasons.parquet'", out)
	return strings.TrimSuffix(db.value("%s", p.find), ".0")
}
