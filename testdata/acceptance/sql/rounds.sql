-- Rounds, from shots and the holes made of them. Sums and counts are over complete holes, and null when there is none.
-- A class that was not needed gained nothing: the four add up to strokes_gained. A sum over a stroke whose gain is not
-- known is not known.
WITH logged AS (
  SELECT season, date, player, course, round, MIN(tees) AS tees, COUNT(DISTINCT hole) AS holes_logged
  FROM shots
  GROUP BY season, date, player, course, round
),
by_class AS (
  SELECT
    date, player, course, round,
    CASE WHEN SUM(CASE WHEN shot_class = 'tee shot' AND strokes_gained IS NULL THEN 1 ELSE 0 END) = 0
      THEN SUM(CASE WHEN shot_class = 'tee shot' THEN strokes_gained ELSE 0 END) END AS strokes_gained_tee_shot,
    CASE WHEN SUM(CASE WHEN shot_class = 'approach' AND strokes_gained IS NULL THEN 1 ELSE 0 END) = 0
      THEN SUM(CASE WHEN shot_class = 'approach' THEN strokes_gained ELSE 0 END) END AS strokes_gained_approach,
    CASE WHEN SUM(CASE WHEN shot_class = 'short game' AND strokes_gained IS NULL THEN 1 ELSE 0 END) = 0
      THEN SUM(CASE WHEN shot_class = 'short game' THEN strokes_gained ELSE 0 END) END AS strokes_gained_short_game,
    CASE WHEN SUM(CASE WHEN shot_class = 'putt' AND strokes_gained IS NULL THEN 1 ELSE 0 END) = 0
      THEN SUM(CASE WHEN shot_class = 'putt' THEN strokes_gained ELSE 0 END) END AS strokes_gained_putt
  FROM shots
  WHERE hole_complete
  GROUP BY date, player, course, round
),
scored AS (
  SELECT
    date, player, course, round,
    COUNT(*) AS holes,
    SUM(par) AS par,
    SUM(score) AS score,
    SUM(putts) AS putts,
    SUM(CASE WHEN fairway_hit THEN 1 ELSE 0 END) AS fairways_hit,
    COUNT(fairway_hit) AS fairways,
    SUM(CASE WHEN green_in_regulation THEN 1 ELSE 0 END) AS greens_in_regulation,
    SUM(penalties) AS penalties,
    CASE WHEN COUNT(strokes_gained) = COUNT(*) THEN SUM(strokes_gained) END AS strokes_gained
  FROM holes
  WHERE hole_complete
  GROUP BY date, player, course, round
)
SELECT
  logged.season, logged.date, logged.player, logged.course, logged.tees, logged.round,
  CAST(COALESCE(holes, 0) AS INTEGER) AS holes,
  CAST(par AS INTEGER) AS par,
  CAST(score AS INTEGER) AS score,
  CAST(score - par AS INTEGER) AS to_par,
  CAST(putts AS INTEGER) AS putts,
  CAST(fairways_hit AS INTEGER) AS fairways_hit,
  CAST(fairways AS INTEGER) AS fairways,
  CAST(greens_in_regulation AS INTEGER) AS greens_in_regulation,
  CAST(penalties AS INTEGER) AS penalties,
  strokes_gained,
  strokes_gained_tee_shot, strokes_gained_approach, strokes_gained_short_game, strokes_gained_putt,
  COALESCE(holes, 0) = holes_logged AND holes_logged IN (9, 18, 27, 36) AS complete
FROM logged
LEFT JOIN scored
  ON scored.date = logged.date
  AND scored.player IS NOT DISTINCT FROM logged.player
  AND scored.course IS NOT DISTINCT FROM logged.course
  AND scored.round IS NOT DISTINCT FROM logged.round
LEFT JOIN by_class
  ON by_class.date = logged.date
  AND by_class.player IS NOT DISTINCT FROM logged.player
  AND by_class.course IS NOT DISTINCT FROM logged.course
  AND by_class.round IS NOT DISTINCT FROM logged.round
