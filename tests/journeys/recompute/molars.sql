-- child,school,years,affected: never-sealed first molars at each child's first screening by the
-- program ever, where that was in the term.
.mode csv
.headers on
WITH
day AS (
  SELECT e.subject AS id, d.term, d.school, d.day_on AS date
  FROM clinic_day AS d JOIN current_entry AS e ON e.id = d.entry WHERE d.cancelled = 0),
wanted AS (
  SELECT e.subject AS id FROM term AS t JOIN current_entry AS e ON e.id = t.entry
  WHERE t.name = 'Fall 2026'),
seen AS (
  SELECT s.entry, s.child, day.date, day.term, day.school,
    row_number() OVER (PARTITION BY s.child ORDER BY day.date, s.entry) AS turn
  FROM screening AS s JOIN current_entry AS e ON e.id = s.entry
  JOIN day ON day.id = s.day),
card AS MATERIALIZED (
  SELECT e.subject AS id, c.birth_year, c.birth_month, c.sex
  FROM child AS c JOIN current_entry AS e ON e.id = c.entry),
ours AS (
  SELECT p.child, p.tooth, day.date FROM placement AS p
  JOIN current_entry AS e ON e.id = p.entry JOIN day ON day.id = p.day
  WHERE p.attempt = 'complete' AND p.type NOT IN ('repair', 'interim'))
SELECT seen.child, seen.school,
  (julianday(seen.date) - julianday(printf('%04d-%02d-15', c.birth_year, c.birth_month))) / 365.25
    - CASE c.sex WHEN 'female' THEN 6.1 WHEN 'male' THEN 6.3 ELSE 6.2 END AS years,
  (t.presence = 'extracted' OR 'cavitated' IN (t.occlusal, t.buccal, t.lingual) OR 'restored' IN (t.occlusal, t.buccal, t.lingual)
   OR 'crowned' IN (t.occlusal, t.buccal, t.lingual)) AS affected
FROM seen JOIN wanted ON wanted.id = seen.term JOIN screening_tooth AS t ON t.entry = seen.entry
JOIN card AS c ON c.id = seen.child
WHERE seen.turn = 1 AND t.tooth IN (16, 26, 36, 46)
  AND (t.presence = 'extracted' OR t.presence IN ('erupted', 'partly erupted')
       AND NOT (t.occlusal = 'not looked at' AND t.buccal = 'not looked at'
                AND t.lingual = 'not looked at'))
  AND 'sealed whole' NOT IN (t.occlusal, t.buccal, t.lingual)
  AND 'sealed part' NOT IN (t.occlusal, t.buccal, t.lingual)
  AND t.occlusal_origin = 'not sealed' AND t.buccal_origin = 'not sealed'
  AND t.lingual_origin = 'not sealed'
  AND NOT EXISTS (SELECT 1 FROM ours WHERE ours.child = seen.child AND ours.tooth = t.tooth
                  AND ours.date < seen.date);
