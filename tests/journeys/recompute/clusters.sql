-- child,school,examined,retained of the same cohort, for R; the school where it was placed.
.mode csv
.headers on
WITH
day AS (
  SELECT e.subject AS id, d.term, d.school, d.day_on AS date
  FROM clinic_day AS d JOIN current_entry AS e ON e.id = d.entry WHERE d.cancelled = 0),
wanted AS (
  SELECT e.subject AS id, t.start_on AS first, t.end_on AS last
  FROM term AS t JOIN current_entry AS e ON e.id = t.entry WHERE t.name = 'Fall 2026'),
sealant AS (
  SELECT e.subject AS id, p.*, day.date, day.school FROM placement AS p
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
  SELECT s.id, s.child, s.school, s.tooth, s.date,
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
  SELECT cohort.id, cohort.child, cohort.school,
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
  FROM cohort LEFT JOIN own ON own.id = cohort.id AND own.turn = 1)
SELECT child, school, count(*) AS examined, sum(held = 'whole') AS retained
FROM looked WHERE held IN ('whole', 'part', 'lost') GROUP BY child, school;
