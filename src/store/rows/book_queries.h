#pragma once

#include <string>
#include <string_view>

namespace gk::store {

/// All that a stamp says, of the entry `e` in the act `a`.
inline constexpr std::string_view stampColumns =
    "e.id, e.id, a.sequence + e.nth, coalesce(e.author, a.author), iif(e.author IS NULL, "
    "a.recorder, e.recorder), a.at, a.utc_offset, e.supersedes, coalesce(e.reason, '')";
inline constexpr std::string_view withAct = " CROSS JOIN act AS a ON a.first = e.id - e.nth * 2048";
/// Rows of the thing ?1. Apart, since its first row leaves out what it is itself.
inline constexpr std::string_view ofThing = "((e.id = ?1 AND e.subject IS NULL) OR e.subject = ?1)";
inline constexpr std::string_view isCurrent =
    "NOT EXISTS (SELECT 1 FROM entry AS later WHERE later.supersedes = e.id)";

// Queries that lie on the way of every act, named so that their plans can be checked.

inline constexpr std::string_view childrenToExpectSql =
    "SELECT coalesce(e.subject, e.id) AS thing FROM child AS t CROSS JOIN entry AS e ON e.id = "
    "t.entry WHERE t.school = ?1 AND (t.left_from IS NULL OR t.left_from > ?2) AND NOT EXISTS "
    "(SELECT 1 FROM entry AS later WHERE "
    "later.supersedes = e.id) AND EXISTS (SELECT 1 FROM consent AS c WHERE c.child = "
    "coalesce(e.subject, e.id) AND (c.valid_until IS NULL OR c.valid_until >= ?2)) ORDER BY "
    "t.entry";

/// Asked for each child of a board, so without reading the rows themselves: whether a current row
/// of `table` about the child ?1 was entered on a current day that `day` says of.
inline std::string seenSql(const std::string& table, const std::string& day) {
  return "EXISTS (SELECT 1 FROM " + table +
         " AS t CROSS JOIN entry AS e ON e.id = t.entry CROSS JOIN entry AS de ON (de.id = t.day "
         "AND de.subject IS NULL) OR de.subject = t.day CROSS JOIN clinic_day AS d ON d.entry = "
         "de.id WHERE t.child = ?1 AND " +
         std::string(isCurrent) +
         " AND NOT EXISTS (SELECT 1 FROM entry AS later WHERE later.supersedes = de.id) AND " +
         day + ")";
}

/// Of the child ?1, before the day ?2, in the term ?3 and in others.
inline std::string childPastSql() {
  const std::string otherDay = "+t.day <> ?2 AND +d.term = ?3";
  return "SELECT " + seenSql("screening", otherDay) + " OR " +
         seenSql("retention_check", otherDay) + ", " +
         seenSql("placement", "t.attempt = 'complete' AND +d.term <> ?3");
}

inline constexpr std::string_view childrenTouchedSql =
    "WITH fresh AS (SELECT id, kind, coalesce(subject, id) AS subject, supersedes FROM entry WHERE "
    "id > ?1) "
    "SELECT subject FROM fresh WHERE kind = (SELECT number FROM entry_kind WHERE name = 'child') "
    "UNION "
    "SELECT s.child FROM fresh CROSS JOIN sealed_identity AS s ON s.entry = fresh.id UNION "
    "SELECT coalesce(e.subject, e.id) FROM fresh CROSS JOIN entry AS e ON e.id = fresh.supersedes "
    "CROSS JOIN child AS c ON c.entry = e.id WHERE fresh.kind = (SELECT number FROM entry_kind "
    "WHERE name = 'retraction') UNION "
    "SELECT s.child FROM fresh CROSS JOIN sealed_identity AS s ON s.entry = fresh.supersedes "
    "WHERE fresh.kind = (SELECT number FROM entry_kind WHERE name = 'retraction')";

/// The lines of a history, from whatever `from` joins to the entry `e` and its act `a`.
inline std::string linesSql(std::string_view from) {
  return "SELECT " + std::string(stampColumns) +
         ", coalesce(e.subject, e.id), a.first, k.name, a.verb, a.station, k.name <> 'retraction' "
         "AND " +
         std::string(isCurrent) + " FROM " + std::string(from);
}

inline constexpr std::string_view withKind = " CROSS JOIN entry_kind AS k ON k.number = e.kind ";
inline constexpr std::string_view withEntries =
    " CROSS JOIN entry AS e ON e.id BETWEEN a.first AND a.first + (a.count - 1) * 2048 AND (e.id & "
    "2047) = (a.first & 2047)";

/// Rows of the hand ?1 before its row ?2, newest first.
inline std::string newestBeforeSql() {
  return linesSql("act AS a" + std::string(withEntries) + std::string(withKind) +
                  "WHERE (a.first & 2047) = ?1 AND a.sequence < ?2 AND a.sequence + e.nth < ?2 "
                  "ORDER BY a.sequence DESC, e.id DESC LIMIT ?3");
}

/// Rows of other hands than ?1 after the row ?2, oldest first.
inline std::string othersSinceSql() {
  return linesSql("entry AS e" + std::string(withAct) + std::string(withKind) +
                  "WHERE e.id > ?2 AND (e.id & 2047) <> ?1 ORDER BY e.id");
}

/// Every row of the thing ?1 and what took one of them back, oldest first.
inline std::string rowsOfSubjectSql() {
  return linesSql("entry AS e" + std::string(withAct) + std::string(withKind) + "WHERE " +
                  std::string(ofThing) + " OR e.supersedes IN (SELECT e.id FROM entry AS e WHERE " +
                  std::string(ofThing) + ") ORDER BY e.id");
}

/// Every row of the act that wrote ?1.
inline std::string actOfSql() {
  return linesSql("entry AS one CROSS JOIN act AS a ON a.first = one.id - one.nth * 2048" +
                  std::string(withEntries) + std::string(withKind) +
                  "WHERE one.id = ?1 ORDER BY e.id");
}

/// ChildrenOfTerm: ?1 the term, ?2 and ?3 the days of placing. Rows that were superseded count too:
/// a child too many does no harm.
inline constexpr std::string_view childrenOfTermSql =
    "WITH today(day) AS MATERIALIZED (SELECT coalesce(e.subject, e.id) FROM clinic_day AS d CROSS "
    "JOIN entry AS e ON e.id = d.entry WHERE d.term = ?1), "
    "placed(day) AS MATERIALIZED (SELECT coalesce(e.subject, e.id) FROM clinic_day AS d CROSS JOIN "
    "entry AS e ON e.id = d.entry WHERE d.day_on BETWEEN ?2 AND ?3 UNION SELECT day FROM today), "
    "counted(child) AS (SELECT child FROM consent WHERE term = ?1 "
    "UNION SELECT t.child FROM placed CROSS JOIN placement AS t ON t.day = placed.day "
    "UNION SELECT t.child FROM today CROSS JOIN seating AS t ON t.day = today.day "
    "UNION SELECT t.child FROM today CROSS JOIN screening AS t ON t.day = today.day "
    "UNION SELECT t.child FROM today CROSS JOIN varnish AS t ON t.day = today.day "
    "UNION SELECT t.child FROM today CROSS JOIN retention_check AS t ON t.day = today.day "
    "UNION SELECT t.child FROM today CROSS JOIN referral AS t ON t.day = today.day "
    "UNION SELECT t.child FROM today CROSS JOIN day_outcome AS t ON t.day = today.day "
    "UNION SELECT o.child FROM term AS w CROSS JOIN entry AS e ON e.id = w.entry CROSS JOIN "
    "consent_override AS o WHERE coalesce(e.subject, e.id) = ?1 AND o.care_on BETWEEN w.start_on "
    "AND w.end_on) SELECT json_group_array(child) FROM counted";

/// A ChildList, which is ?1.
inline constexpr std::string_view listedChildren = "(SELECT value FROM json_each(?1))";

/// The fields of those children.
inline std::string fieldsOfListed() {
  return "(SELECT coalesce(e.subject, e.id) FROM field AS f CROSS JOIN entry AS e ON e.id = "
         "f.entry WHERE f.child IN " +
         std::string(listedChildren) + ")";
}

/// The current words of each thing that has several. Of those one row, in any of its lines of
/// words, was superseded twice, so the others are not looked at.
inline constexpr std::string_view rivalsSql =
    "WITH forked AS (SELECT DISTINCT coalesce(f.subject, f.id) AS thing FROM (SELECT supersedes "
    "FROM entry WHERE supersedes IS NOT NULL GROUP BY supersedes HAVING count(*) > 1) AS fork "
    "CROSS JOIN entry AS f ON f.id = fork.supersedes) "
    "SELECT k.name, forked.thing, e.id FROM forked CROSS JOIN entry AS e ON (e.id = forked.thing "
    "AND e.subject IS NULL) OR e.subject = forked.thing CROSS JOIN entry_kind AS k ON k.number = "
    "e.kind WHERE k.name <> 'retraction' AND NOT EXISTS (SELECT 1 FROM entry AS later WHERE "
    "later.supersedes = e.id) ORDER BY forked.thing, e.id";

/// What a person took back on one laptop while another corrected that word, as long as the
/// corrected one stands and no one has said since which is kept. Words that a merge's answer, or
/// cards that are joined, take back are asked of elsewhere; what one laptop undid and did again is
/// none.
inline constexpr std::string_view takenBackSql =
    "WITH fork AS (SELECT supersedes AS row FROM entry WHERE supersedes IS NOT NULL GROUP BY "
    "supersedes HAVING count(*) > 1), taken AS (SELECT f.kind AS kind, coalesce(f.subject, f.id) "
    "AS thing, r.id AS back, r.kind AS how, r.id - r.nth * 2048 AS act FROM fork CROSS JOIN entry "
    "AS f ON f.id = fork.row CROSS JOIN entry AS r ON r.supersedes = fork.row WHERE r.kind = "
    "(SELECT number FROM entry_kind WHERE name = 'retraction') AND EXISTS (SELECT 1 FROM entry AS "
    "c WHERE c.supersedes = fork.row AND c.kind <> r.kind AND (c.id & 2047) <> (r.id & 2047))) "
    "SELECT k.name, taken.thing, taken.back FROM taken CROSS JOIN act AS a ON a.first = taken.act "
    "CROSS JOIN entry_kind AS k ON k.number = taken.kind WHERE a.verb = 'undo' AND NOT "
    "EXISTS (SELECT 1 FROM entry AS kept WHERE kept.subject = taken.thing AND kept.kind = "
    "taken.kind AND kept.id - kept.nth * 2048 = taken.act) AND NOT EXISTS (SELECT 1 FROM entry AS "
    "said CROSS JOIN act AS s ON s.first = said.id - said.nth * 2048 WHERE said.subject = "
    "taken.thing AND said.kind = taken.kind AND said.id > taken.back AND s.verb = 'settle words') "
    "ORDER BY taken.thing, taken.back";

inline constexpr std::string_view newestEntrySql = "SELECT id FROM entry ORDER BY id DESC LIMIT 1";
/// Where the hand ?1 stands.
inline constexpr std::string_view lastActSql =
    "SELECT sequence + count - 1, digest FROM act WHERE (first & 2047) = ?1 ORDER BY sequence DESC "
    "LIMIT 1";

/// The last act of the hand ?1 that begins at or before its row ?2.
inline constexpr std::string_view actUpToSql =
    "SELECT sequence + count - 1, digest FROM act WHERE (first & 2047) = ?1 AND sequence <= ?2 "
    "ORDER BY sequence DESC LIMIT 1";

} // namespace gk::store
