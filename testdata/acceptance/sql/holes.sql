-- Holes, from shots alone.
-- A stroke with a penalty did not finish where play resumed: it hits no fairway, though the drop may lie on one.
-- A ball in the hole is on the green. A sand save starts at the first stroke from sand, whatever was played before it.
WITH counted AS (
  SELECT
    shots.*,
    SUM(1 + penalty) OVER (
      PARTITION BY date, player, course, round, hole ORDER BY shot
      ROWS BETWEEN UNBOUNDED PRECEDING AND CURRENT ROW
    ) AS score_so_far,
    SUM(1 + penalty) OVER (PARTITION BY date, player, course, round, hole) AS score_in_all,
    MIN(CASE WHEN shot_class = 'short game' THEN shot END)
      OVER (PARTITION BY date, player, course, round, hole) AS first_short_game_shot,
    MIN(CASE WHEN shot_class = 'short game' AND lie_category = 'sand' THEN shot END)
      OVER (PARTITION BY date, player, course, round, hole) AS first_greenside_sand_shot
  FROM shots
),
summed AS (
  SELECT
    season, date, player, course, round, hole,
    MIN(par) AS par,
    MIN(hole_length_yd) AS hole_length_yd,
    COUNT(*) AS strokes,
    SUM(penalty) AS penalties,
    MIN(CASE WHEN hole_complete THEN 1 ELSE 0 END) AS all_logged,
    SUM(CASE WHEN shot_class = 'putt' THEN 1 ELSE 0 END) AS putts,
    -- 1 or 0, null where there was nothing to hit, to get up and down from, or to save
    MAX(CASE WHEN shot = 1 AND shot_class = 'tee shot'
      THEN CASE WHEN penalty = 0 AND finish_category IN ('fairway', 'green', 'holed') THEN 1 ELSE 0 END END) AS fairway_hit,
    MAX(CASE WHEN finish_category IN ('green', 'holed') AND score_so_far <= counted.par - 2 THEN 1 ELSE 0 END)
      AS green_in_regulation,
    MAX(CASE WHEN shot = first_short_game_shot
      THEN CASE WHEN score_in_all - score_so_far + 1 + penalty <= 2 THEN 1 ELSE 0 END END) AS up_and_down,
    MAX(CASE WHEN shot = first_greenside_sand_shot
      THEN CASE WHEN score_in_all - score_so_far + 1 + penalty <= 2 THEN 1 ELSE 0 END END) AS sand_save,
    CASE WHEN COUNT(strokes_gained) = COUNT(*) THEN SUM(strokes_gained) END AS strokes_gained
  FROM counted
  GROUP BY season, date, player, course, round, hole
)
SELECT
  season, date, player, course, round, hole, par, hole_length_yd,
  CAST(strokes AS INTEGER) AS strokes,
  CAST(penalties AS INTEGER) AS penalties,
  CAST(CASE WHEN all_logged = 1 THEN strokes + penalties END AS INTEGER) AS score,
  CAST(CASE WHEN all_logged = 1 THEN putts END AS INTEGER) AS putts,
  CASE WHEN all_logged = 1 THEN fairway_hit = 1 END AS fairway_hit,
  CASE WHEN all_logged = 1 THEN green_in_regulation = 1 END AS green_in_regulation,
  CASE WHEN all_logged = 1 THEN up_and_down = 1 END AS up_and_down,
  CASE WHEN all_logged = 1 THEN sand_save = 1 END AS sand_save,
  CASE WHEN all_logged = 1 THEN putts >= 3 END AS three_putt,
  CASE WHEN all_logged = 1 THEN strokes_gained END AS strokes_gained,
  all_logged = 1 AS hole_complete
FROM summed
