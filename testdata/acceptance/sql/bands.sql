-- The yardage bands that the program has unless told otherwise. A band reaches from from_yd up to, not including, to_yd.
WITH bands (from_yd, to_yd, label) AS (
  VALUES
    (50e0, 75e0, '50-75'), (75e0, 100e0, '75-100'), (100e0, 125e0, '100-125'), (125e0, 150e0, '125-150'),
    (150e0, 175e0, '150-175'), (175e0, 200e0, '175-200'), (200e0, 225e0, '200-225'), (225e0, 250e0, '225-250')
)
SELECT from_yd, to_yd, label FROM bands
