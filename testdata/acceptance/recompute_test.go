package acceptance
import "testing"
func TestScratch(t *testing.T) {
	s := season{name:"demo", log: "../demo/season.csv", args: []string{"--demo","--no-charts"}, sourceFile: "demo season (invented)"}
	db := openDatabase(t)
	db.recompute(s)
	db.attach(run(t, s))
	for _, table := range []string{"shots","holes","rounds","strokes_gained","approach_proximity"} { db.compare("ours."+table, "theirs."+table) }
}
