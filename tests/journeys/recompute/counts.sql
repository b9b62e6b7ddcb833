-- Fall 2026 of the demo county counted again by plain SQL, without the program. name|value.
.mode list
.separator ' '
WITH
day AS (
  SELECT e.subject AS id, d.term, d.school, d.day_on AS date
  FROM clinic_day AS d JOIN current_entry AS e ON e.id = d.entry WHERE d.cancelled = 0),
wanted AS (
  SELECT e.subject AS id, t.start_on AS first, t.end_on AS last
  FROM term AS t JOIN current_entry AS e ON e.id = t.entry WHERE t.name = 'Fall 2026'),
now AS (SELECT day.* FROM day JOIN wanted ON wanted.id = day.term),
sealant AS (
  SELECT e.subject AS id, p.*, day.date FROM placement AS p
  JOIN current_entry AS e ON e.id = p.entry JOIN day ON day.id = p.day
  WHERE p.attempt = 'complete' AND p.type NOT IN ('repair', 'interim')),
mended AS (
  SELECT p.child, p.tooth, day.date FROM placement AS p
  JOIN current_entry AS e ON e.id = p.entry JOIN day ON day.id = p.day
  WHERE p.attempt = 'complete' AND p.type = 'repair'),
checked AS ( -- what lifts off, and a surface filled since, is a lost sealant
  SELECT c.placement, c.child, day.date, c.check_kind AS kind,
    CASE WHEN c.lift = 'lifted' OR 'lost' IN (c.occlusal, c.buccal, c.lingual)
           OR (c.why = 'restored over' AND 'cannot assess' IN (c.occlusal, c.buccal, c.lingual))
         THEN 'lost'
         WHEN 'part' IN (c.occlusal, c.buccal, c.lingual) THEN 'part'
         WHEN 'whole' IN (c.occlusal, c.buccal, c.lingual) THEN 'whole'
         ELSE 'cannot' END AS held
  FROM retention_check AS c JOIN current_entry AS e ON e.id = c.entry JOIN day ON day.id = c.day
  JOIN wanted WHERE day.date <= wanted.last),
cohort AS ( -- the first sealant on a tooth, and the day from which it is known as lost
  SELECT s.id, s.child, s.tooth, s.date,
    (SELECT min(date) FROM (
       SELECT k.date FROM checked AS k WHERE k.placement = s.id AND k.held = 'lost'
       UNION ALL
       SELECT later.date FROM sealant AS later
       WHERE later.child = s.child AND later.tooth = s.tooth AND later.date > s.date
         AND NOT EXISTS (SELECT 1 FROM checked AS k WHERE k.placement = s.id
                         AND k.date = later.date AND k.held = 'whole')
         AND NOT EXISTS (SELECT 1 FROM screening AS c JOIN current_entry AS e ON e.id = c.entry
                         JOIN screening_tooth AS t ON t.entry = c.entry
                         WHERE c.child = s.child AND c.day = later.day AND t.tooth = s.tooth
                         AND t.decision = 'reseal' AND t.reseal_why = 'other'))) AS lost_on
  FROM sealant AS s, wanted
  WHERE s.type <> 'reseal'
    AND NOT EXISTS (SELECT 1 FROM sealant AS before WHERE before.child = s.child
                    AND before.tooth = s.tooth AND before.date < s.date)
    AND date(s.date, '+9 months') <= wanted.last
    AND date(s.date, '+15 months') >= wanted.first),
found AS ( -- the days in the window on which its child was found
  SELECT cohort.id, k.date FROM cohort JOIN checked AS k ON k.child = cohort.child
  JOIN wanted WHERE k.kind = 'long-term' AND k.date >= wanted.first
    AND k.date BETWEEN date(cohort.date, '+9 months') AND date(cohort.date, '+15 months')),
own AS (
  SELECT cohort.id, k.held, k.date,
    row_number() OVER (PARTITION BY cohort.id ORDER BY k.held = 'cannot', k.date) AS turn
  FROM cohort JOIN checked AS k ON k.placement = cohort.id
  JOIN wanted WHERE k.kind = 'long-term' AND k.date >= wanted.first
    AND k.date BETWEEN date(cohort.date, '+9 months') AND date(cohort.date, '+15 months')),
looked AS (
  SELECT cohort.id, cohort.child,
    CASE WHEN EXISTS (SELECT 1 FROM found WHERE found.id = cohort.id AND found.date >= cohort.lost_on)
         THEN 'lost'
         WHEN own.held IN ('whole', 'part') AND (
           EXISTS (SELECT 1 FROM checked AS k WHERE k.placement = cohort.id AND k.held = 'part'
                   AND k.date <= own.date)
           OR EXISTS (SELECT 1 FROM mended WHERE mended.child = cohort.child
                      AND mended.tooth = cohort.tooth AND mended.date >= cohort.date
                      AND mended.date < own.date))
         THEN 'part'
         ELSE own.held END AS held
  FROM cohort LEFT JOIN own ON own.id = cohort.id AND own.turn = 1),
sealed AS (
  SELECT DISTINCT sealant.child, sealant.tooth FROM sealant JOIN now ON now.id = sealant.day),
seen AS (
  SELECT s.* FROM screening AS s JOIN current_entry AS e ON e.id = s.entry
  JOIN now ON now.id = s.day)
SELECT 'children_with_a_record', count(DISTINCT child) FROM (
  SELECT f.child FROM consent AS f JOIN current_entry AS e ON e.id = f.entry
    JOIN wanted ON wanted.id = f.term
  UNION SELECT child FROM seen
  UNION SELECT o.child FROM day_outcome AS o JOIN current_entry AS e ON e.id = o.entry
    JOIN now ON now.id = o.day
  UNION SELECT c.child FROM retention_check AS c JOIN current_entry AS e ON e.id = c.entry
    JOIN now ON now.id = c.day) UNION ALL
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
SELECT 'retention.children_found', count(DISTINCT child) FROM looked WHERE held IS NOT NULL UNION ALL
SELECT 'retention.examined', count(*) FROM looked WHERE held IS NOT NULL UNION ALL
SELECT 'retention.assessable', count(*) FROM looked WHERE held <> 'cannot' UNION ALL
SELECT 'retention.whole', count(*) FROM looked WHERE held = 'whole' UNION ALL
SELECT 'retention.part', count(*) FROM looked WHERE held = 'part' UNION ALL
SELECT 'retention.lost', count(*) FROM looked WHERE held = 'lost';
