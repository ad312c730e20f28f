-- The enriched shots, from the typed log alone.
-- In: log (one row a record, refused where it is no use, which leaves its hole incomplete), lies, baseline,
--     bands (from_yd, to_yd), settings (one row: short_game_yd, reach_yd, units of this log's distances in a yard).
WITH numbered AS (
  SELECT
    log.*,
    COALESCE(
      shot_logged,
      ROW_NUMBER() OVER (PARTITION BY date, player, course, round, hole ORDER BY source_line)
    ) AS shot
  FROM log
),
-- A refused record is no stroke, but its hole is not complete, and a stroke before it is not the last.
judged AS (
  SELECT
    numbered.*,
    MAX(shot) OVER (PARTITION BY date, player, course, round, hole) AS last_shot,
    MAX(CASE WHEN refused THEN 1 ELSE 0 END) OVER (PARTITION BY date, player, course, round, hole) AS any_refused,
    COALESCE(lie_logged, CASE WHEN shot = 1 THEN 'tee' END) AS lie
  FROM numbered
),
placed AS (
  SELECT
    judged.*,
    before_stroke.category AS lie_category,
    after_stroke.category AS left_category,
    CASE
      WHEN before_stroke.category <> 'green' THEN to_hole / to_hole_per_yd
      WHEN putt_length IS NOT NULL THEN putt_length / putt_length_per_yd
      ELSE to_hole / to_hole_per_yd_on_green
    END AS to_hole_yd,
    short_game_yd,
    reach_yd,
    left_per_yd,
    left_per_yd_on_green
  FROM judged
  CROSS JOIN settings
  LEFT JOIN lies AS before_stroke
    ON before_stroke.word = REPLACE(REPLACE(LOWER(TRIM(lie)), '-', ' '), '_', ' ')
  LEFT JOIN lies AS after_stroke
    ON after_stroke.word = REPLACE(REPLACE(LOWER(TRIM(finish_lie_logged)), '-', ' '), '_', ' ')
  WHERE NOT refused
),
followed AS (
  SELECT
    placed.*,
    FIRST_VALUE(to_hole_yd) OVER hole_order AS first_to_hole_yd,
    LEAD(shot) OVER hole_order AS next_shot,
    LEAD(lie_category) OVER hole_order AS next_category,
    LEAD(to_hole_yd) OVER hole_order AS next_to_hole_yd
  FROM placed
  WINDOW hole_order AS (PARTITION BY date, player, course, round, hole ORDER BY shot)
),
ended AS (
  SELECT
    followed.*,
    COALESCE(next_shot = shot + 1, FALSE) AS next_follows,
    shot = last_shot AND COALESCE(holed_logged, TRUE) AS holed,
    shot = last_shot AND NOT COALESCE(holed_logged, TRUE) AS picked_up,
    COALESCE(penalty_logged, 0) AS penalty
  FROM followed
),
finished AS (
  SELECT
    ended.*,
    CASE
      WHEN holed THEN 'holed'
      WHEN penalty > 0 AND next_follows THEN next_category
      WHEN left_category IS NOT NULL THEN left_category
      WHEN next_follows THEN next_category
    END AS finish_category
  FROM ended
),
measured AS (
  SELECT
    finished.*,
    CASE
      WHEN holed THEN 0e0
      WHEN penalty > 0 AND next_follows THEN next_to_hole_yd
      WHEN left_logged IS NOT NULL AND finish_category = 'green' THEN left_logged / left_per_yd_on_green
      WHEN left_logged IS NOT NULL THEN left_logged / left_per_yd
      WHEN next_follows THEN next_to_hole_yd
    END AS finish_yd,
    CASE
      WHEN lie_category = 'tee' AND par >= 4 THEN 'tee shot'
      WHEN lie_category = 'green' THEN 'putt'
      WHEN to_hole_yd <= short_game_yd THEN 'short game'
      ELSE 'approach'
    END AS shot_class
  FROM finished
),
-- Where the stroke left the player: the place of the next stroke when there is one, so that a hole adds up.
resumed AS (
  SELECT
    measured.*,
    CASE WHEN holed THEN 'holed' WHEN next_follows THEN next_category ELSE finish_category END AS after_category,
    CASE WHEN holed THEN 0e0 WHEN next_follows THEN next_to_hole_yd ELSE finish_yd END AS after_yd,
    shot_class = 'approach'
      AND to_hole_yd <= reach_yd
      AND lie_category <> 'recovery'
      AND COALESCE(intent, '') NOT IN ('lay up', 'get out') AS at_green,
    long_short_yd + COALESCE(aim_long_short_yd, 0) AS long_yd,
    left_right_yd + COALESCE(aim_left_right_yd, 0) AS right_yd
  FROM measured
),
expected AS (
  SELECT
    resumed.*,
    -- engines differ in what GREATEST makes of a null
    CASE
      WHEN before_stroke.category IS NOT NULL THEN GREATEST(1e0, before_stroke.from_strokes
        + (to_hole_yd - before_stroke.from_yd) * before_stroke.strokes_per_yd)
    END AS expected_before,
    CASE
      WHEN after_category = 'holed' THEN 0e0
      WHEN after_stroke.category IS NOT NULL THEN GREATEST(1e0, after_stroke.from_strokes
        + (after_yd - after_stroke.from_yd) * after_stroke.strokes_per_yd)
    END AS expected_after
  FROM resumed
  LEFT JOIN baseline AS before_stroke
    ON before_stroke.category = lie_category
    AND to_hole_yd > before_stroke.above_yd AND to_hole_yd <= before_stroke.up_to_yd
  LEFT JOIN baseline AS after_stroke
    ON after_stroke.category = after_category
    AND after_yd > after_stroke.above_yd AND after_yd <= after_stroke.up_to_yd
)
SELECT
  CAST(EXTRACT(YEAR FROM date) AS INTEGER) AS season,
  date, player, course, tees, round, hole, par,
  COALESCE(hole_length_yd, first_to_hole_yd) AS hole_length_yd,
  stroke_index, shot, lie, lie_category, to_hole_yd, club,
  finish_yd, finish_lie_logged AS finish_lie, finish_category,
  CASE WHEN penalty = 0 AND NOT picked_up THEN 3 * finish_yd END AS proximity_ft,
  shot_class, at_green,
  bands.from_yd AS band_from_yd,
  expected_before, expected_after,
  expected_before - expected_after - 1 - penalty AS strokes_gained,
  penalty, penalty_kind, long_yd, right_yd,
  CASE
    WHEN headwind_mph IS NULL AND elevation_yd IS NULL THEN NULL
    WHEN headwind_mph < 0 THEN to_hole_yd * (1 + 0.005e0 * headwind_mph) + COALESCE(elevation_yd, 0)
    ELSE to_hole_yd * (1 + 0.01e0 * COALESCE(headwind_mph, 0)) + COALESCE(elevation_yd, 0)
  END AS plays_like_yd,
  CASE
    WHEN NOT at_green OR finish_category IS NULL THEN NULL
    WHEN finish_category IN ('green', 'holed') THEN FALSE
    WHEN (long_yd IS NULL OR ABS(right_yd) >= ABS(long_yd))
      AND (pin_side = 'left' AND right_yd < 0 OR pin_side = 'right' AND right_yd > 0) THEN TRUE
    WHEN (right_yd IS NULL OR ABS(long_yd) >= ABS(right_yd))
      AND (pin_depth = 'front' AND long_yd < 0 OR pin_depth = 'back' AND long_yd > 0) THEN TRUE
    WHEN pin_side IS NOT NULL AND right_yd IS NOT NULL AND (long_yd IS NULL OR ABS(right_yd) >= ABS(long_yd)) THEN FALSE
    WHEN pin_depth IS NOT NULL AND long_yd IS NOT NULL AND (right_yd IS NULL OR ABS(long_yd) >= ABS(right_yd)) THEN FALSE
    ELSE NULL
  END AS short_sided,
  intent, fault, headwind_mph, crosswind_mph, elevation_yd, putt_slope, putt_break, pin_side, pin_depth, holed,
  any_refused = 0
    AND MIN(shot) OVER whole_hole = 1
    AND MAX(shot) OVER whole_hole = COUNT(*) OVER whole_hole
    AND SUM(CASE WHEN shot = 1 AND lie_category = 'tee' THEN 1 ELSE 0 END) OVER whole_hole = 1
    AND SUM(CASE WHEN holed THEN 1 ELSE 0 END) OVER whole_hole = 1
    AND SUM(CASE WHEN next_shot IS NULL OR next_follows THEN 0 ELSE 1 END) OVER whole_hole = 0 AS hole_complete,
  note, source_file, source_line
FROM expected
LEFT JOIN bands
  ON to_hole_yd >= bands.from_yd AND to_hole_yd < bands.to_yd
WINDOW whole_hole AS (PARTITION BY date, player, course, round, hole)
