-- Autumn 2026 of the demo county counted again by plain SQL, without the program. name|value.
.mode list
.separator ' '
WITH
day AS (
  SELECT e.subject AS id, d.term, d.school, d.day_on AS date
  FROM clinic_day AS d JOIN current_entry AS e ON e.id = d.entry WHERE d.cancelled = 0),
wanted AS (
  SELECT e.subject AS id, t.start_on AS first, t.end_on AS last
  FROM term AS t JOIN current_entry AS e ON e.id = t.entry WHERE t.name = 'Autumn 2026'),
now AS (SELECT day.* FROM day JOIN wanted ON wanted.id = day.term),
sealant AS (
  SELECT e.subject AS id, p.*, day.date FROM placement AS p
  JOIN current_entry AS e ON e.id = p.entry JOIN day ON day.id = p.day
  WHERE p.attempt = 'complete' AND p.type NOT IN ('repair', 'interim')),
sealed AS (
  SELECT DISTINCT sealant.child, sealant.tooth FROM sealant JOIN now ON now.id = sealant.day),
seen AS (
  SELECT s.* FROM screening AS s JOIN current_entry AS e ON e.id = s.entry
  JOIN now ON now.id = s.day),
cohort AS (
  SELECT sealant.* FROM sealant, wanted
  WHERE sealant.type <> 'reseal'
    AND date(sealant.date, '+9 months') <= wanted.last
    AND date(sealant.date, '+15 months') >= wanted.first),
looked AS (
  SELECT cohort.id, cohort.child,
    CASE WHEN 'lost' IN (c.occlusal, c.buccal, c.lingual) THEN 'lost'
         WHEN 'part' IN (c.occlusal, c.buccal, c.lingual) THEN 'part'
         WHEN 'whole' IN (c.occlusal, c.buccal, c.lingual) THEN 'whole'
         ELSE 'cannot' END AS held
  FROM cohort JOIN retention_check AS c ON c.placement = cohort.id
  JOIN current_entry AS e ON e.id = c.entry JOIN now ON now.id = c.day
  WHERE c.check_kind = 'long-term')
SELECT 'screened', count(DISTINCT child) FROM seen UNION ALL
SELECT 'untreated', count(DISTINCT child) FROM seen WHERE untreated_decay = 'yes' UNION ALL
SELECT 'urgent', count(DISTINCT child) FROM seen WHERE urgency = 'urgent' UNION ALL
SELECT 'sealed', count(DISTINCT child) FROM sealed UNION ALL
SELECT 'first_molars', count(*) FROM sealed WHERE tooth % 10 = 6 AND tooth < 50 UNION ALL
SELECT 'second_molars', count(*) FROM sealed WHERE tooth % 10 = 7 AND tooth < 50 UNION ALL
SELECT 'days', count(*) FROM now UNION ALL
SELECT 'varnish', count(DISTINCT v.child) FROM varnish AS v JOIN current_entry AS e ON e.id = v.entry
  JOIN now ON now.id = v.day UNION ALL
SELECT 'retention.placed', count(*) FROM cohort UNION ALL
SELECT 'retention.children_placed', count(DISTINCT child) FROM cohort UNION ALL
SELECT 'retention.children_found', count(DISTINCT child) FROM looked UNION ALL
SELECT 'retention.examined', count(*) FROM looked UNION ALL
SELECT 'retention.assessable', count(*) FROM looked WHERE held <> 'cannot' UNION ALL
SELECT 'retention.whole', count(*) FROM looked WHERE held = 'whole' UNION ALL
SELECT 'retention.part', count(*) FROM looked WHERE held = 'part' UNION ALL
SELECT 'retention.lost', count(*) FROM looked WHERE held = 'lost';
