-- Screening indicators of a span of dates (@from, @through) counted again by plain SQL: each child
-- once, whatever terms it was seen in. group.name value.
.mode list
.separator ' '
WITH
day AS (
  SELECT e.subject AS id, d.day_on AS date
  FROM clinic_day AS d JOIN current_entry AS e ON e.id = d.entry
  WHERE d.cancelled = 0 AND d.day_on BETWEEN @from AND @through),
seen AS (
  SELECT s.*, row_number() OVER (PARTITION BY s.child ORDER BY day.date, s.entry) AS turn
  FROM screening AS s JOIN current_entry AS e ON e.id = s.entry JOIN day ON day.id = s.day),
card AS MATERIALIZED (
  SELECT e.subject AS id, c.grade FROM child AS c JOIN current_entry AS e ON e.id = c.entry),
decay AS ( -- 1 yes, 0 no, NULL no one could tell
  SELECT child,
    max(CASE untreated_decay WHEN 'yes' THEN 1 WHEN 'no' THEN 0 END) AS untreated,
    max(CASE treated_decay WHEN 'yes' THEN 1 WHEN 'no' THEN 0 END) AS treated,
    max(CASE urgency WHEN 'urgent' THEN 2 WHEN 'early' THEN 1 ELSE 0 END) AS urgency
  FROM seen GROUP BY child),
sealed AS (
  SELECT DISTINCT seen.child FROM seen JOIN screening_tooth AS t ON t.entry = seen.entry
  WHERE seen.turn = 1 AND t.tooth IN (16, 26, 36, 46, 17, 27, 37, 47)
    AND (t.occlusal IN ('sealed whole', 'sealed part') OR t.buccal IN ('sealed whole', 'sealed part')
      OR t.lingual IN ('sealed whole', 'sealed part'))),
unseen AS ( -- a permanent molar that may be there, and no surface of it looked at
  SELECT DISTINCT seen.child FROM seen JOIN screening_tooth AS t ON t.entry = seen.entry
  WHERE seen.turn = 1 AND t.tooth IN (16, 26, 36, 46, 17, 27, 37, 47)
    AND (t.presence = 'cannot see' OR (t.presence IN ('erupted', 'partly erupted')
      AND t.occlusal = 'not looked at' AND t.buccal = 'not looked at'
      AND t.lingual = 'not looked at'))),
kid AS (
  SELECT CASE card.grade WHEN 'K' THEN 'Kindergarten' WHEN '3' THEN 'Grade-3'
           ELSE 'Other-grades' END AS grp,
    decay.*, CASE WHEN decay.child IN (SELECT child FROM sealed) THEN 1
                WHEN decay.child IN (SELECT child FROM unseen) THEN NULL ELSE 0 END AS has_sealant,
    -- true OR NULL is true, false OR NULL is NULL: known only where it is known
    (untreated = 1 OR treated = 1) AS experience
  FROM decay JOIN card ON card.id = decay.child),
both AS (SELECT * FROM kid UNION ALL SELECT 'All-grades', child, untreated, treated, urgency,
  has_sealant, experience FROM kid),
figures AS (
  SELECT grp, 'screened' AS name, count(*) AS value FROM both GROUP BY grp UNION ALL
  SELECT grp, 'untreated', coalesce(sum(untreated), 0) FROM both GROUP BY grp UNION ALL
  SELECT grp, 'untreated-known', count(untreated) FROM both GROUP BY grp UNION ALL
  SELECT grp, 'treated', coalesce(sum(treated), 0) FROM both GROUP BY grp UNION ALL
  SELECT grp, 'treated-known', count(treated) FROM both GROUP BY grp UNION ALL
  SELECT grp, 'experience', coalesce(sum(experience), 0) FROM both GROUP BY grp UNION ALL
  SELECT grp, 'experience-known', count(experience) FROM both GROUP BY grp UNION ALL
  SELECT grp, 'sealants', coalesce(sum(has_sealant), 0) FROM both GROUP BY grp UNION ALL
  SELECT grp, 'sealants-known', count(has_sealant) FROM both GROUP BY grp UNION ALL
  SELECT grp, 'none', sum(urgency = 0) FROM both GROUP BY grp UNION ALL
  SELECT grp, 'early', sum(urgency = 1) FROM both GROUP BY grp UNION ALL
  SELECT grp, 'urgent', sum(urgency = 2) FROM both GROUP BY grp)
SELECT grp || '.' || name, value FROM figures ORDER BY 1;
