-- child,examined,retained of the same cohort, for R.
.mode csv
.headers on
WITH
day AS (
  SELECT e.subject AS id, d.term, d.day_on AS date
  FROM clinic_day AS d JOIN current_entry AS e ON e.id = d.entry WHERE d.cancelled = 0),
wanted AS (
  SELECT e.subject AS id, t.start_on AS first, t.end_on AS last
  FROM term AS t JOIN current_entry AS e ON e.id = t.entry WHERE t.name = 'Autumn 2026')
SELECT hex(p.child) AS child, count(*) AS examined,
  sum('lost' NOT IN (c.occlusal, c.buccal, c.lingual)
      AND 'part' NOT IN (c.occlusal, c.buccal, c.lingual)) AS retained
FROM placement AS p JOIN current_entry AS e ON e.id = p.entry JOIN day ON day.id = p.day
JOIN retention_check AS c ON c.placement = e.subject JOIN current_entry AS ce ON ce.id = c.entry
JOIN day AS then_ ON then_.id = c.day JOIN wanted ON wanted.id = then_.term
WHERE p.attempt = 'complete' AND p.type NOT IN ('repair', 'interim', 'reseal')
  AND c.check_kind = 'long-term'
  AND date(day.date, '+9 months') <= wanted.last AND date(day.date, '+15 months') >= wanted.first
  AND ('whole' IN (c.occlusal, c.buccal, c.lingual) OR 'part' IN (c.occlusal, c.buccal, c.lingual)
       OR 'lost' IN (c.occlusal, c.buccal, c.lingual))
GROUP BY p.child;
