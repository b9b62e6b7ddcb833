#include "store/chairside_rows.h"

namespace gk::store {

namespace {

using chairside::ToothFinding;
using dentition::ToothSurfaces;

void writeTeeth(Connection& connection, std::string_view sql, base::EntryId entry,
                const std::vector<ToothSurfaces>& teeth) {
  for (std::size_t i = 0; i < teeth.size(); ++i) {
    auto statement = connection.prepare(sql);
    RowWriter(statement, 1) << entry << static_cast<int>(i) << teeth[i].tooth << teeth[i].surfaces;
    statement.run();
  }
}

std::vector<ToothSurfaces> readTeeth(Connection& connection, std::string_view sql,
                                     base::EntryId entry) {
  std::vector<ToothSurfaces> teeth;
  eachPart(connection, sql, entry,
           [&](RowReader& row) { teeth.push_back({.tooth = row, .surfaces = row}); });
  return teeth;
}

RowWriter& operator<<(RowWriter& row, const chairside::SurfaceFinding& finding) {
  return row << finding.condition << finding.origin;
}

chairside::SurfaceFinding surfaceFinding(RowReader& row) {
  return {.condition = row, .origin = row};
}

} // namespace

void Rows<chairside::Screening>::writeParts(Connection& connection, base::EntryId entry,
                                            const chairside::Screening& screening) {
  constexpr std::string_view sql =
      "INSERT INTO screening_tooth (entry, place, tooth, presence, occlusal, occlusal_origin, "
      "buccal, buccal_origin, lingual, lingual_origin, enamel, soft_tissue, decision, to_seal, "
      "revisit, note) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";
  for (std::size_t i = 0; i < screening.teeth.size(); ++i) {
    const ToothFinding& t = screening.teeth[i];
    auto statement = connection.prepare(sql);
    RowWriter row(statement, 1);
    row << entry << static_cast<int>(i) << t.tooth << t.presence;
    row << t.occlusal << t.buccal << t.lingual;
    row << t.enamel << t.softTissue << t.decision << t.toSeal << t.revisit << t.note;
    statement.run();
  }
}

void Rows<chairside::Screening>::readParts(Connection& connection, base::EntryId entry,
                                           chairside::Screening& screening) {
  constexpr std::string_view sql =
      "SELECT tooth, presence, occlusal, occlusal_origin, buccal, buccal_origin, lingual, "
      "lingual_origin, enamel, soft_tissue, decision, to_seal, revisit, note "
      "FROM screening_tooth WHERE entry = ? ORDER BY place";
  eachPart(connection, sql, entry, [&](RowReader& row) {
    screening.teeth.push_back({.tooth = row,
                               .presence = row,
                               .occlusal = surfaceFinding(row),
                               .buccal = surfaceFinding(row),
                               .lingual = surfaceFinding(row),
                               .enamel = row,
                               .softTissue = row,
                               .decision = row,
                               .toSeal = row,
                               .revisit = row,
                               .note = row});
  });
}

void Rows<chairside::Field>::writeParts(Connection& connection, base::EntryId entry,
                                        const chairside::Field& f) {
  writeTeeth(connection,
             "INSERT INTO field_tooth (entry, place, tooth, surfaces) VALUES (?, ?, ?, ?)", entry,
             f.teeth);
}

void Rows<chairside::Field>::readParts(Connection& connection, base::EntryId entry,
                                       chairside::Field& f) {
  f.teeth = readTeeth(
      connection, "SELECT tooth, surfaces FROM field_tooth WHERE entry = ? ORDER BY place", entry);
}

void Rows<chairside::TimerStart>::writeParts(Connection& connection, base::EntryId entry,
                                             const chairside::TimerStart& t) {
  writeTeeth(connection,
             "INSERT INTO timer_tooth (entry, place, tooth, surfaces) VALUES (?, ?, ?, ?)", entry,
             t.teeth);
}

void Rows<chairside::TimerStart>::readParts(Connection& connection, base::EntryId entry,
                                            chairside::TimerStart& t) {
  t.teeth = readTeeth(
      connection, "SELECT tooth, surfaces FROM timer_tooth WHERE entry = ? ORDER BY place", entry);
}

void Rows<chairside::StepRun>::writeParts(Connection& connection, base::EntryId entry,
                                          const chairside::StepRun& s) {
  writeTeeth(connection,
             "INSERT INTO step_tooth (entry, place, tooth, surfaces) VALUES (?, ?, ?, ?)", entry,
             s.teeth);
}

void Rows<chairside::StepRun>::readParts(Connection& connection, base::EntryId entry,
                                         chairside::StepRun& s) {
  s.teeth = readTeeth(
      connection, "SELECT tooth, surfaces FROM step_tooth WHERE entry = ? ORDER BY place", entry);
}

void Rows<chairside::Wet>::writeParts(Connection& connection, base::EntryId entry,
                                      const chairside::Wet& w) {
  constexpr std::string_view sql = "INSERT INTO wet_tooth (entry, place, tooth) VALUES (?, ?, ?)";
  for (std::size_t i = 0; i < w.teeth.size(); ++i) {
    auto statement = connection.prepare(sql);
    RowWriter(statement, 1) << entry << static_cast<int>(i) << w.teeth[i];
    statement.run();
  }
}

void Rows<chairside::Wet>::readParts(Connection& connection, base::EntryId entry,
                                     chairside::Wet& w) {
  constexpr std::string_view sql = "SELECT tooth FROM wet_tooth WHERE entry = ? ORDER BY place";
  eachPart(connection, sql, entry,
           [&](RowReader& row) { w.teeth.push_back(row.take<dentition::Tooth>()); });
}

} // namespace gk::store
