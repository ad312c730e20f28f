// The job of main.go by Polars: LOG OUT [memory]. Shots of a hole are taken to follow each other in the log, and what is
// done to them before the next one is looked at keeps that order, so no join. With memory, all is held there, which takes
// less processor time; without, shots are streamed into the file and read back for the quantiles, which takes less memory.
import { mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import pl from "nodejs-polars";

if (process.argv[2] === "--there") process.exit(0);
const [log, out, memory] = process.argv.slice(2);
const given = dirname(out);
mkdirSync(out);

const types = {
  date: pl.Utf8, player: pl.Utf8, course: pl.Utf8, tees: pl.Utf8, course_rating: pl.Float64, slope_rating: pl.Float64,
  round: pl.Utf8, hole: pl.Int32, par: pl.Int32, hole_length_yd: pl.Float64, stroke_index: pl.Int32, shot: pl.Int32,
  lie: pl.Utf8, to_hole: pl.Float64, club: pl.Utf8, left: pl.Float64, finish_lie: pl.Utf8, long_short_yd: pl.Float64,
  left_right_yd: pl.Float64, aim_long_short_yd: pl.Float64, aim_left_right_yd: pl.Float64, pin_side: pl.Utf8,
  pin_depth: pl.Utf8, headwind_mph: pl.Float64, crosswind_mph: pl.Float64, green_depth_yd: pl.Float64,
  green_width_yd: pl.Float64, elevation_yd: pl.Float64, putt_slope: pl.Utf8, putt_break: pl.Utf8, penalty: pl.Int32,
  penalty_kind: pl.Utf8, intent: pl.Utf8, fault: pl.Utf8, holed: pl.Utf8, note: pl.Utf8,
};
const categories = Object.fromEntries(pl.readCSV(join(given, "lies.csv")).toRecords().map(({ word, category }) => [word, category]));
const categoryOf = (name) => pl.col(name).replaceStrict({ old: categories, default_: pl.lit(null), returnDtype: pl.Utf8 });
const expected = pl.readCSV(join(given, "expected.csv"), { dtypes: { tenths: pl.Int32 } }).lazy();
const before = expected.select(pl.col("category").alias("lie_category"), pl.col("tenths"), pl.col("strokes").alias("expected_before"));
const after = expected.select(pl.col("category").alias("finish_category"), pl.col("tenths").alias("finish_tenths"), pl.col("strokes").alias("after"));

const next = (name) => pl.col(name).shift(-1);
const sameHole = ["hole", "round", "date", "player"].map((name) => next(name).eq(pl.col(name))).reduce((a, b) => a.and(b)).fillNull(false);
const penalty = pl.col("penalty").fillNull(0);
const pickedUp = pl.col("holed").eq(pl.lit("no")).fillNull(false);

const job = pl
  .scanCSV(log, { schema: types })
  .withColumns(categoryOf("lie").alias("lie_category"), categoryOf("finish_lie").alias("left_category"), pl.col("to_hole").mul(10).round(0).cast(pl.Int32).alias("tenths"))
  .withColumns(
    pl.when(sameHole).then(next("lie_category")).when(pickedUp).then(pl.col("left_category")).otherwise(pl.lit("holed")).alias("finish_category"),
    pl.when(sameHole).then(next("tenths")).when(pickedUp).then(pl.col("left").mul(10).round(0).cast(pl.Int32)).otherwise(pl.lit(0)).cast(pl.Int32).alias("finish_tenths"),
  )
  .join(before, { on: ["lie_category", "tenths"], how: "left" })
  .join(after, { on: ["finish_category", "finish_tenths"], how: "left" })
  .withColumns(
    pl.col("expected_before").minus(pl.col("after").fillNull(0)).minus(1).minus(penalty).alias("strokes_gained"),
    pl.when(penalty.eq(0).and(pickedUp.not()))
      .then(pl.col("finish_tenths").mul(pl.when(pl.col("finish_category").eq(pl.lit("green"))).then(pl.lit(0.1)).otherwise(pl.lit(0.3))))
      .otherwise(pl.lit(null))
      .alias("proximity_ft"),
    pl.col("lie_category").isIn(["green", "recovery"]).not()
      .and(pl.col("lie_category").eq(pl.lit("tee")).and(pl.col("par").gtEq(4)).not())
      .and(pl.col("to_hole").gt(50)).and(pl.col("to_hole").lt(250))
      .and(pl.col("intent").fillNull("").isIn(["lay up", "get out"]).not())
      .alias("at_green"),
    pl.col("to_hole").div(25).floor().mul(25).alias("band_from_yd"),
  );
const file = join(out, "shots.parquet");
let shots;
if (memory) {
  const held = job.collectSync();
  held.writeParquet(file, { compression: "zstd" });
  shots = held.lazy();
} else {
  job.sinkParquet(file, { compression: "zstd", maintainOrder: false }).collectSync();
  shots = pl.scanParquet(file);
}

const quantile = (p, name) => pl.col("proximity_ft").quantile(p, "linear").alias(name);
shots
  .filter(pl.col("at_green"))
  .withColumns(pl.when(pl.col("lie_category").eq(pl.lit("tee"))).then(pl.lit("fairway")).otherwise(pl.col("lie_category")).alias("lie_group"))
  .groupBy(["player", "lie_group", "band_from_yd"])
  .agg(
    pl.col("at_green").count().alias("n"), quantile(0.1, "p10"), quantile(0.25, "p25"), quantile(0.5, "median"),
    quantile(0.75, "p75"), quantile(0.9, "p90"), pl.col("strokes_gained").mean().alias("strokes_gained"),
  )
  .collectSync()
  .writeCSV(join(out, "quantiles.csv"));
