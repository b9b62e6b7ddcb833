#pragma once

#include <string_view>

namespace gk::store {

// Queries that lie on the way of every act, named so that their plans can be checked.

inline constexpr std::string_view childrenToExpectSql =
    "SELECT e.subject FROM child AS t CROSS JOIN current_entry AS e ON e.id = t.entry WHERE "
    "t.school = ?1 AND EXISTS (SELECT 1 FROM consent AS c WHERE c.child = e.subject AND "
    "(c.valid_until IS NULL OR c.valid_until >= ?2)) ORDER BY t.entry";

/// Asked for each child of a board, so without reading the rows themselves.
inline constexpr std::string_view childPastSql =
    "SELECT EXISTS (SELECT 1 FROM screening AS t CROSS JOIN current_entry AS e ON e.id = t.entry "
    "CROSS JOIN current_entry AS de ON de.subject = t.day CROSS JOIN clinic_day AS d ON d.entry = "
    "de.id WHERE t.child = ?1 AND +t.day <> ?2 AND +d.term = ?3) OR "
    "EXISTS (SELECT 1 FROM retention_check AS t CROSS JOIN current_entry AS e ON e.id = t.entry "
    "CROSS JOIN current_entry AS de ON de.subject = t.day CROSS JOIN clinic_day AS d ON d.entry = "
    "de.id WHERE t.child = ?1 AND +t.day <> ?2 AND +d.term = ?3), "
    "EXISTS (SELECT 1 FROM placement AS t CROSS JOIN current_entry AS e ON e.id = t.entry "
    "CROSS JOIN current_entry AS de ON de.subject = t.day CROSS JOIN clinic_day AS d ON d.entry = "
    "de.id WHERE t.child = ?1 AND t.attempt = 'complete' AND +d.term <> ?3)";

inline constexpr std::string_view childrenTouchedSql =
    "WITH fresh AS (SELECT id, kind, subject, supersedes FROM entry WHERE id > ?1) "
    "SELECT subject FROM fresh WHERE kind = 'child' UNION "
    "SELECT s.child FROM fresh CROSS JOIN sealed_identity AS s ON s.entry = fresh.id UNION "
    "SELECT e.subject FROM fresh CROSS JOIN entry AS e ON e.id = fresh.supersedes WHERE "
    "fresh.kind = 'retraction' AND e.kind = 'child' UNION "
    "SELECT s.child FROM fresh CROSS JOIN sealed_identity AS s ON s.entry = fresh.supersedes "
    "WHERE fresh.kind = 'retraction'";

/// This laptop's rows before ?2, newest first.
inline constexpr std::string_view newestBeforeSql =
    "SELECT e.id, e.laptop, e.sequence, e.author, e.recorder, e.at, e.utc_offset, e.supersedes, "
    "e.reason, e.subject, e.act, e.kind, e.verb, e.station, EXISTS (SELECT 1 FROM current_entry AS "
    "c WHERE c.id "
    "= e.id) FROM entry AS e WHERE e.laptop = ?1 AND e.sequence < ?2 ORDER BY e.sequence DESC "
    "LIMIT ?3";

/// Rows of other laptops than ?1 after the row ?2, oldest first.
inline constexpr std::string_view othersSinceSql =
    "SELECT e.id, e.laptop, e.sequence, e.author, e.recorder, e.at, e.utc_offset, e.supersedes, "
    "e.reason, e.subject, e.act, e.kind, e.verb, e.station, EXISTS (SELECT 1 FROM current_entry AS "
    "c WHERE c.id "
    "= e.id) FROM entry AS e WHERE e.id > ?2 AND e.laptop <> ?1 ORDER BY e.id";

/// Every row of the thing ?1 and what took one of them back, oldest first.
inline constexpr std::string_view rowsOfSubjectSql =
    "SELECT e.id, e.laptop, e.sequence, e.author, e.recorder, e.at, e.utc_offset, e.supersedes, "
    "e.reason, e.subject, e.act, e.kind, e.verb, e.station, EXISTS (SELECT 1 FROM current_entry AS "
    "c WHERE c.id "
    "= e.id) FROM entry AS e WHERE e.subject = ?1 OR e.supersedes IN (SELECT id FROM entry WHERE "
    "subject = ?1) "
    "ORDER BY e.id";

/// Every row of the act that wrote ?1.
inline constexpr std::string_view actOfSql =
    "SELECT e.id, e.laptop, e.sequence, e.author, e.recorder, e.at, e.utc_offset, e.supersedes, "
    "e.reason, e.subject, e.act, e.kind, e.verb, e.station, EXISTS (SELECT 1 FROM current_entry AS "
    "c WHERE c.id "
    "= e.id) FROM entry AS e WHERE e.act = (SELECT act FROM entry AS one WHERE one.id = ?1) ORDER "
    "BY "
    "e.sequence";

/// The current words of each thing that has several. Of those one row, in any of its lines of
/// words, was superseded twice, so the others are not looked at.
/// Where::ChildrenOfTerm: ?1 the term, ?2 and ?3 the days of placing. Rows that were superseded
/// count too: a child too many does no harm.
inline constexpr std::string_view childrenOfTermSql =
    "WITH today(day) AS MATERIALIZED (SELECT e.subject FROM clinic_day AS d CROSS JOIN entry AS e "
    "ON e.id = d.entry WHERE d.term = ?1), "
    "placed(day) AS MATERIALIZED (SELECT e.subject FROM clinic_day AS d CROSS JOIN entry AS e ON "
    "e.id = d.entry WHERE d.day_on BETWEEN ?2 AND ?3 UNION SELECT day FROM today) "
    "SELECT child FROM consent WHERE term = ?1 "
    "UNION SELECT t.child FROM placed CROSS JOIN placement AS t ON t.day = placed.day "
    "UNION SELECT t.child FROM today CROSS JOIN seating AS t ON t.day = today.day "
    "UNION SELECT t.child FROM today CROSS JOIN screening AS t ON t.day = today.day "
    "UNION SELECT t.child FROM today CROSS JOIN varnish AS t ON t.day = today.day "
    "UNION SELECT t.child FROM today CROSS JOIN retention_check AS t ON t.day = today.day "
    "UNION SELECT t.child FROM today CROSS JOIN referral AS t ON t.day = today.day "
    "UNION SELECT t.child FROM today CROSS JOIN day_outcome AS t ON t.day = today.day "
    "UNION SELECT o.child FROM term AS w CROSS JOIN entry AS e ON e.id = w.entry CROSS JOIN "
    "consent_override AS o WHERE e.subject = ?1 AND o.care_on BETWEEN w.start_on AND w.end_on";

/// The fields of those children.
inline constexpr std::string_view fieldsOfTermSql =
    "SELECT e.subject FROM field AS f CROSS JOIN entry AS e ON e.id = f.entry WHERE f.child IN (";

inline constexpr std::string_view rivalsSql =
    "SELECT c.kind, c.subject, c.id FROM current_entry AS c WHERE c.subject IN (SELECT f.subject "
    "FROM (SELECT supersedes FROM entry WHERE supersedes IS NOT NULL GROUP BY supersedes HAVING "
    "count(*) > 1) AS fork CROSS JOIN entry AS f ON f.id = fork.supersedes) ORDER BY c.subject, "
    "c.id";

inline constexpr std::string_view positionSql =
    "SELECT (SELECT coalesce(max(sequence), 0) FROM entry WHERE laptop = ?1), "
    "(SELECT max(id) FROM entry), "
    "(SELECT act FROM entry WHERE laptop = ?1 ORDER BY sequence DESC LIMIT 1)";

} // namespace gk::store
