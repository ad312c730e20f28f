-- Approach proximity by player, lie group and yardage band, from shots alone.
-- n is every approach at the green whose finish is known, penalties among them. Feet are over those at rest in play, shares are of n.
-- The quantiles are definition 7 of Hyndman and Fan (1996), spelled out because the engines name it differently:
-- of n values in order, the one at place 1 + (n - 1) p, straight between its neighbours.
WITH approaches AS (
  SELECT
    player, lie_category, band_from_yd, penalty, finish_category, proximity_ft, strokes_gained,
    CASE WHEN penalty = 0 AND proximity_ft IS NOT NULL THEN long_yd END AS long_yd,
    CASE WHEN penalty = 0 AND proximity_ft IS NOT NULL THEN right_yd END AS right_yd
  FROM shots
  WHERE at_green AND (finish_yd IS NOT NULL OR penalty > 0) AND band_from_yd IS NOT NULL
),
grouped AS (
  SELECT 'all' AS lie_group, approaches.* FROM approaches
  UNION ALL
  SELECT CASE lie_category WHEN 'tee' THEN 'fairway' ELSE lie_category END, approaches.* FROM approaches
),
ranked AS (
  SELECT
    grouped.*,
    ROW_NUMBER() OVER (
      PARTITION BY player, lie_group, band_from_yd ORDER BY COALESCE(proximity_ft, 1e9)
    ) AS place,
    COUNT(proximity_ft) OVER (PARTITION BY player, lie_group, band_from_yd) AS at_rest
  FROM grouped
)
SELECT
  player, lie_group, band_from_yd,
  MIN(bands.to_yd) AS band_to_yd,
  COUNT(*) AS n,
  SUM(CASE WHEN penalty > 0 THEN 1 ELSE 0 END) AS n_penalty,
  AVG(CASE WHEN penalty = 0 AND finish_category IN ('green', 'holed') THEN 1e0 ELSE 0e0 END) AS green_share,
  AVG(proximity_ft) AS mean_ft,
  SUM(CASE WHEN proximity_ft IS NOT NULL AND ABS(place - 1 - 0.10e0 * (at_rest - 1)) < 1
    THEN proximity_ft * (1 - ABS(place - 1 - 0.10e0 * (at_rest - 1))) END) AS p10_ft,
  SUM(CASE WHEN proximity_ft IS NOT NULL AND ABS(place - 1 - 0.25e0 * (at_rest - 1)) < 1
    THEN proximity_ft * (1 - ABS(place - 1 - 0.25e0 * (at_rest - 1))) END) AS p25_ft,
  SUM(CASE WHEN proximity_ft IS NOT NULL AND ABS(place - 1 - 0.50e0 * (at_rest - 1)) < 1
    THEN proximity_ft * (1 - ABS(place - 1 - 0.50e0 * (at_rest - 1))) END) AS median_ft,
  SUM(CASE WHEN proximity_ft IS NOT NULL AND ABS(place - 1 - 0.75e0 * (at_rest - 1)) < 1
    THEN proximity_ft * (1 - ABS(place - 1 - 0.75e0 * (at_rest - 1))) END) AS p75_ft,
  SUM(CASE WHEN proximity_ft IS NOT NULL AND ABS(place - 1 - 0.90e0 * (at_rest - 1)) < 1
    THEN proximity_ft * (1 - ABS(place - 1 - 0.90e0 * (at_rest - 1))) END) AS p90_ft,
  AVG(CASE WHEN proximity_ft <= 15 THEN 1e0 ELSE 0e0 END) AS inside_15ft_share,
  AVG(CASE WHEN proximity_ft <= 30 THEN 1e0 ELSE 0e0 END) AS inside_30ft_share,
  AVG(strokes_gained) AS strokes_gained_per_shot,
  AVG(long_yd) AS long_mean_yd,
  -- engines differ in what the deviation of one value is
  CASE WHEN COUNT(long_yd) > 1 THEN STDDEV_SAMP(long_yd) END AS long_sd_yd,
  AVG(right_yd) AS right_mean_yd,
  CASE WHEN COUNT(right_yd) > 1 THEN STDDEV_SAMP(right_yd) END AS right_sd_yd
FROM ranked
JOIN bands ON bands.from_yd = band_from_yd
GROUP BY player, lie_group, band_from_yd
