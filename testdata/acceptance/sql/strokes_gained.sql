-- Strokes gained over complete holes, by player and group, from shots alone.
-- per_round is per 18 complete holes of the player, as a ratio of sums, per_100_shots is per 100 strokes of the group.
-- Holes count when they are complete and the baseline knows every stroke of them.
WITH complete AS (
  SELECT shots.*, COUNT(*) OVER whole_hole - COUNT(strokes_gained) OVER whole_hole AS strokes_unknown
  FROM shots
  WHERE hole_complete
  WINDOW whole_hole AS (PARTITION BY date, player, course, round, hole)
),
counted AS (
  SELECT
    player, shot_class, lie_category, band_from_yd, par, strokes_gained,
    CONCAT_WS('|', CAST(date AS VARCHAR(10)), COALESCE(course, ''), COALESCE(round, '')) AS round_key,
    hole
  FROM complete
  WHERE strokes_unknown = 0
),
complete_holes AS (
  SELECT player, COUNT(DISTINCT CONCAT_WS('|', round_key, CAST(hole AS VARCHAR(2)))) AS holes
  FROM counted
  GROUP BY player
),
grouped AS (
  SELECT player, 'total' AS group_kind, 'all' AS group_name, round_key, strokes_gained FROM counted
  UNION ALL
  SELECT player, 'class', shot_class, round_key, strokes_gained FROM counted
  UNION ALL
  SELECT player, 'lie', lie_category, round_key, strokes_gained FROM counted
  UNION ALL
  SELECT player, 'par', CAST(par AS VARCHAR(1)), round_key, strokes_gained FROM counted
  UNION ALL
  SELECT player, 'band', bands.label, round_key, strokes_gained
  FROM counted
  JOIN bands ON bands.from_yd = band_from_yd
)
SELECT
  grouped.player, group_kind, group_name,
  COUNT(DISTINCT round_key) AS rounds,
  COUNT(*) AS n,
  18 * SUM(strokes_gained) / MIN(holes) AS per_round,
  100 * SUM(strokes_gained) / COUNT(*) AS per_100_shots
FROM grouped
JOIN complete_holes
  ON complete_holes.player IS NOT DISTINCT FROM grouped.player
GROUP BY grouped.player, group_kind, group_name
