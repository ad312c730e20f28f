package acceptance
import "testing"
func TestScratch(t *testing.T) {
	for _, s := range []season{
	{name:"demo", log: "../demo/season.csv", args: []string{"--demo"}, sourceFile: "demo season (invented)"},
	{name: "bare", log: "logs/bare.csv"},
	{name: "metres", log: "logs/metres.csv", args: []string{"--units","m"}, metres: true},
	{name: "metres, in yards", log: "logs/metres.csv"},
	{name: "penalties", log: "logs/penalties.csv"},
	{name: "unfinished", log: "logs/unfinished.csv"},
	{name: "order", log: "logs/order.csv"},
	{name: "bands", log: "logs/bands.csv"},
	{name: "bands of the flag", log: "logs/bands.csv", args: []string{"--bands","30,60,120,230", "--short-game", "30", "--reach","235"}, bands: []float64{30,60,120,230}, shortGame: "30e0", reach: "235e0"},
	{name: "wide short game", log: "logs/bands.csv", args: []string{"--short-game", "60"}, shortGame: "60e0"},
	{name: "disagreeing", log: "logs/disagreeing.csv"},
	{name: "words", log: "logs/words.csv"},
	{name: "baseline", log: "logs/bare.csv", args: []string{"--baseline","logs/baseline.csv"}, baseline: "logs/baseline.csv"},
	{name: "three", log: "/tmp/s3.csv"},
	} { t.Run(s.name, func(t *testing.T) {
	s.args = append(s.args, "--no-charts")
	db := openDatabase(t)
	db.recompute(s)
	db.attach(run(t, s))
	for _, table := range []string{"shots","holes","rounds","strokes_gained","approach_proximity"} { db.compare("ours."+table, "theirs."+table) }
	})}
}
