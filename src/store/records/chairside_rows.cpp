#include "store/records/chairside_rows.h"

#include "store/records/authorization_rows.h"

namespace gk::store {

namespace {

using chairside::ToothFinding;
using dentition::ToothSurfaces;

/// The lists of teeth with surfaces all lie in tables of one shape.
void writeTeeth(Connection& connection, const std::string& table, base::EntryId entry,
                const std::vector<ToothSurfaces>& teeth) {
  const auto sql = "INSERT INTO " + table + " (entry, place, tooth, surfaces) VALUES (?, ?, ?, ?)";
  for (std::size_t i = 0; i < teeth.size(); ++i) {
    auto statement = connection.prepare(sql);
    RowWriter(statement, 1) << entry << static_cast<int>(i) << teeth[i].tooth << teeth[i].surfaces;
    statement.run();
  }
}

std::vector<ToothSurfaces> readTeeth(Connection& connection, const std::string& table,
                                     base::EntryId entry) {
  const auto sql = "SELECT tooth, surfaces FROM " + table + " WHERE entry = ? ORDER BY place";
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

void Rows<chairside::Authorization>::writeParts(Connection& connection, base::EntryId entry,
                                                const chairside::Authorization& a) {
  writeTeeth(connection, "authorization_tooth", entry, a.teeth);
}

void Rows<chairside::Authorization>::readParts(Connection& connection, base::EntryId entry,
                                               chairside::Authorization& a) {
  a.teeth = readTeeth(connection, "authorization_tooth", entry);
}

void Rows<chairside::Seating>::writeParts(Connection& connection, base::EntryId entry,
                                          const chairside::Seating& s) {
  constexpr std::string_view sql =
      "INSERT INTO seating_alert (entry, place, flag) VALUES (?, ?, ?)";
  for (std::size_t i = 0; i < s.heard.size(); ++i) {
    auto statement = connection.prepare(sql);
    RowWriter(statement, 1) << entry << static_cast<int>(i) << s.heard[i];
    statement.run();
  }
}

void Rows<chairside::Seating>::readParts(Connection& connection, base::EntryId entry,
                                         chairside::Seating& s) {
  constexpr std::string_view sql = "SELECT flag FROM seating_alert WHERE entry = ? ORDER BY place";
  eachPart(connection, sql, entry,
           [&](RowReader& row) { s.heard.push_back(row.take<roster::FlagId>()); });
}

void Rows<chairside::Screening>::writeParts(Connection& connection, base::EntryId entry,
                                            const chairside::Screening& screening) {
  constexpr std::string_view sql =
      "INSERT INTO screening_tooth (entry, place, tooth, presence, occlusal, occlusal_origin, "
      "buccal, buccal_origin, lingual, lingual_origin, enamel, soft_tissue, decision, to_seal, "
      "revisit, note, reseal_why) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";
  for (std::size_t i = 0; i < screening.teeth.size(); ++i) {
    const ToothFinding& t = screening.teeth[i];
    auto statement = connection.prepare(sql);
    RowWriter row(statement, 1);
    row << entry << static_cast<int>(i) << t.tooth << t.presence;
    row << t.occlusal << t.buccal << t.lingual;
    row << t.enamel << t.softTissue << t.decision << t.toSeal << t.revisit << t.note << t.resealWhy;
    statement.run();
  }
}

void Rows<chairside::Screening>::readParts(Connection& connection, base::EntryId entry,
                                           chairside::Screening& screening) {
  constexpr std::string_view sql =
      "SELECT tooth, presence, occlusal, occlusal_origin, buccal, buccal_origin, lingual, "
      "lingual_origin, enamel, soft_tissue, decision, to_seal, revisit, note, reseal_why "
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
                               .note = row,
                               .resealWhy = row});
  });
}

void Rows<chairside::Field>::writeParts(Connection& connection, base::EntryId entry,
                                        const chairside::Field& f) {
  writeTeeth(connection, "field_tooth", entry, f.teeth);
}

void Rows<chairside::Field>::readParts(Connection& connection, base::EntryId entry,
                                       chairside::Field& f) {
  f.teeth = readTeeth(connection, "field_tooth", entry);
}

void Rows<chairside::TimerStart>::writeParts(Connection& connection, base::EntryId entry,
                                             const chairside::TimerStart& t) {
  writeTeeth(connection, "timer_tooth", entry, t.teeth);
}

void Rows<chairside::TimerStart>::readParts(Connection& connection, base::EntryId entry,
                                            chairside::TimerStart& t) {
  t.teeth = readTeeth(connection, "timer_tooth", entry);
}

void Rows<chairside::StepRun>::writeParts(Connection& connection, base::EntryId entry,
                                          const chairside::StepRun& s) {
  writeTeeth(connection, "step_tooth", entry, s.teeth);
}

void Rows<chairside::StepRun>::readParts(Connection& connection, base::EntryId entry,
                                         chairside::StepRun& s) {
  s.teeth = readTeeth(connection, "step_tooth", entry);
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
