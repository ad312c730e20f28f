-- Rounds, from shots alone and the holes made of them. Everything but holes_logged is over complete holes.
WITH by_class AS (
  SELECT
    season, date, player, course, round,
    MIN(tees) AS tees,
    SUM(CASE WHEN hole_complete AND shot_class = 'tee shot' THEN strokes_gained END) AS strokes_gained_tee_shot,
    SUM(CASE WHEN hole_complete AND shot_class = 'approach' THEN strokes_gained END) AS strokes_gained_approach,
    SUM(CASE WHEN hole_complete AND shot_class = 'short game' THEN strokes_gained END) AS strokes_gained_short_game,
    SUM(CASE WHEN hole_complete AND shot_class = 'putt' THEN strokes_gained END) AS strokes_gained_putt
  FROM shots
  GROUP BY season, date, player, course, round
),
by_hole AS (
  SELECT
    season, date, player, course, round,
    COUNT(*) AS holes_logged,
    SUM(CASE WHEN hole_complete THEN 1 ELSE 0 END) AS holes,
    SUM(CASE WHEN hole_complete THEN par END) AS par,
    SUM(score) AS score,
    SUM(putts) AS putts,
    SUM(CASE WHEN fairway_hit THEN 1 ELSE 0 END) AS fairways_hit,
    COUNT(fairway_hit) AS fairways,
    SUM(CASE WHEN green_in_regulation THEN 1 ELSE 0 END) AS greens_in_regulation,
    SUM(CASE WHEN hole_complete THEN penalties END) AS penalties,
    SUM(strokes_gained) AS strokes_gained
  FROM holes
  GROUP BY season, date, player, course, round
)
SELECT
  by_hole.season, by_hole.date, by_hole.player, by_hole.course, by_class.tees, by_hole.round,
  CAST(holes AS INTEGER) AS holes,
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
  holes = holes_logged AND holes IN (9, 18, 27, 36) AS complete
FROM by_hole
JOIN by_class
  ON by_class.date = by_hole.date
  AND by_class.player IS NOT DISTINCT FROM by_hole.player
  AND by_class.course IS NOT DISTINCT FROM by_hole.course
  AND by_class.round IS NOT DISTINCT FROM by_hole.round;
