-- Words for lies and the six categories that the baseline knows.
-- A word is compared in lower case, with - and _ as spaces, in singular or plural.
WITH words (word, category) AS (
  VALUES
    ('tee', 'tee'), ('tee box', 'tee'), ('tee boxe', 'tee'),
    ('fairway', 'fairway'), ('fringe', 'fairway'), ('apron', 'fairway'), ('collar', 'fairway'),
    ('rough', 'rough'), ('first cut', 'rough'), ('semi rough', 'rough'), ('light rough', 'rough'),
    ('deep rough', 'rough'), ('bermuda', 'rough'), ('native', 'rough'), ('fescue', 'rough'),
    ('hardpan', 'rough'), ('pine straw', 'rough'), ('drop zone', 'rough'),
    ('bunker', 'sand'), ('sand', 'sand'), ('greenside bunker', 'sand'), ('fairway bunker', 'sand'),
    ('plugged', 'sand'), ('waste bunker', 'sand'),
    ('recovery', 'recovery'), ('tree', 'recovery'), ('wood', 'recovery'), ('blocked', 'recovery'),
    ('penalty area', 'recovery'),
    ('green', 'green'), ('putting surface', 'green')
)
SELECT word, category FROM words
UNION ALL
SELECT word || 's', category FROM words
