-- What the demo's autumn 2026 cost and reached, by plain SQL. name value.
.mode list
.separator ' '
WITH
wanted AS (
  SELECT e.subject AS id FROM term AS t JOIN current_entry AS e ON e.id = t.entry
  WHERE t.name = 'Fall 2026'),
cost AS (
  SELECT c.day, sum(l.cents) AS cents FROM day_cost AS c JOIN current_entry AS e ON e.id = c.entry
  JOIN day_cost_line AS l ON l.entry = c.entry GROUP BY c.day),
day AS (
  SELECT e.subject AS id, cost.cents FROM clinic_day AS d JOIN current_entry AS e ON e.id = d.entry
  JOIN wanted ON wanted.id = d.term JOIN cost ON cost.day = e.subject WHERE d.cancelled = 0),
reached AS (
  SELECT s.child FROM screening AS s JOIN current_entry AS e ON e.id = s.entry
    WHERE s.day IN (SELECT id FROM day) UNION
  SELECT p.child FROM placement AS p JOIN current_entry AS e ON e.id = p.entry
    WHERE p.day IN (SELECT id FROM day) UNION
  SELECT v.child FROM varnish AS v JOIN current_entry AS e ON e.id = v.entry
    WHERE v.day IN (SELECT id FROM day) UNION
  SELECT k.child FROM retention_check AS k JOIN current_entry AS e ON e.id = k.entry
    WHERE k.day IN (SELECT id FROM day)),
sealed AS (
  SELECT DISTINCT p.child, p.tooth FROM placement AS p JOIN current_entry AS e ON e.id = p.entry
  WHERE p.day IN (SELECT id FROM day) AND p.attempt = 'complete'
    AND p.type NOT IN ('repair', 'interim'))
SELECT 'days', count(*) FROM day UNION ALL
SELECT 'cents', sum(cents) FROM day UNION ALL
SELECT 'seen', count(*) FROM reached UNION ALL
SELECT 'teeth', count(*) FROM sealed;
