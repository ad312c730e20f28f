-- The baseline as straight segments. In: baseline_rows (category, distance_yd, strokes).
-- The first segment reaches down to the hole and the last one up without end, so that every distance falls into one.
WITH pairs AS (
  SELECT
    category,
    distance_yd AS from_yd,
    strokes AS from_strokes,
    LEAD(distance_yd) OVER row_order AS to_yd,
    LEAD(strokes) OVER row_order AS to_strokes,
    ROW_NUMBER() OVER row_order AS number,
    COUNT(*) OVER (PARTITION BY category) - 1 AS segments
  FROM baseline_rows
  WINDOW row_order AS (PARTITION BY category ORDER BY distance_yd)
)
SELECT
  category,
  CASE WHEN number = 1 THEN -1e0 ELSE from_yd END AS above_yd,
  CASE WHEN number = segments THEN 1e9 ELSE to_yd END AS up_to_yd,
  from_yd,
  from_strokes,
  (to_strokes - from_strokes) / (to_yd - from_yd) AS strokes_per_yd
FROM pairs
WHERE to_yd IS NOT NULL
