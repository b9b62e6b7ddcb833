#pragma once

#include "chairside/after_cure.h"
#include "chairside/placement.h"
#include "store/records/visit_rows.h"
#include "store/rows/rows.h"

namespace gk::store {

template <>
struct Rows<chairside::Seating> {
  static constexpr std::string_view table = "seating";
  static constexpr std::string_view columns =
      "child, day, confirmed, assented, history_unchanged, changed";
  template <class Row>
  static void write(Row& row, const chairside::Seating& s) {
    row << s.child << s.day << s.confirmed << s.assented << s.historyUnchanged << s.changed;
  }
  static chairside::Seating read(RowReader& row) {
    return {.child = row,
            .day = row,
            .confirmed = row,
            .assented = row,
            .historyUnchanged = row,
            .changed = row};
  }
  static void writeParts(Connection& connection, base::EntryId entry, const chairside::Seating& s);
  static void readParts(Connection& connection, base::EntryId entry, chairside::Seating& s);
};

template <>
struct Rows<chairside::Screening> {
  static constexpr std::string_view table = "screening";
  static constexpr std::string_view columns =
      "child, day, untreated_decay, treated_decay, urgency, urgent_reason, note";
  template <class Row>
  static void write(Row& row, const chairside::Screening& s) {
    row << s.child << s.day << s.untreatedDecay << s.treatedDecay << s.urgency << s.urgentReason
        << s.note;
  }
  static chairside::Screening read(RowReader& row) {
    return {.child = row,
            .day = row,
            .untreatedDecay = row,
            .treatedDecay = row,
            .urgency = row,
            .urgentReason = row,
            .note = row,
            .teeth = {}};
  }
  static void writeParts(Connection& connection, base::EntryId entry,
                         const chairside::Screening& screening);
  static void readParts(Connection& connection, base::EntryId entry,
                        chairside::Screening& screening);
};

template <>
struct Rows<chairside::Field> {
  static constexpr std::string_view table = "field";
  static constexpr std::string_view columns =
      "child, day, isolation, guards, cheek_held_by, tongue_held_by, four_handed, assistant, "
      "sealant, etchant, adding, note, cleaned";
  template <class Row>
  static void write(Row& row, const chairside::Field& f) {
    row << f.child << f.day << f.isolation << f.guards << f.cheek << f.tongue << f.fourHanded
        << f.assistant << f.sealant << f.etchant << f.adding << f.note << f.cleaned;
  }
  static chairside::Field read(RowReader& row) {
    return {.child = row,
            .day = row,
            .teeth = {},
            .isolation = row,
            .guards = row,
            .cheek = row,
            .tongue = row,
            .fourHanded = row,
            .assistant = row.maybe(),
            .sealant = row,
            .etchant = row.maybe(),
            .adding = row,
            .note = row,
            .cleaned = row};
  }
  static void writeParts(Connection& connection, base::EntryId entry, const chairside::Field& f);
  static void readParts(Connection& connection, base::EntryId entry, chairside::Field& f);
};

template <>
struct Rows<chairside::TimerStart> {
  static constexpr std::string_view table = "timer_start";
  static constexpr std::string_view columns = "field, step, target_seconds, light";
  template <class Row>
  static void write(Row& row, const chairside::TimerStart& t) {
    row << t.field << t.step << t.target << t.light;
  }
  static chairside::TimerStart read(RowReader& row) {
    return {.field = row, .step = row, .teeth = {}, .target = row, .light = row.maybe()};
  }
  static void writeParts(Connection& connection, base::EntryId entry,
                         const chairside::TimerStart& t);
  static void readParts(Connection& connection, base::EntryId entry, chairside::TimerStart& t);
};

template <>
struct Rows<chairside::StepRun> {
  static constexpr std::string_view table = "step_run";
  static constexpr std::string_view columns =
      "field, step, result, lasted_ms, target_seconds, source, timer, light, lot, etch_reason, "
      "reason";
  template <class Row>
  static void write(Row& row, const chairside::StepRun& s) {
    row << s.field << s.step << s.result << s.lasted << s.target << s.source << s.timer << s.light
        << s.lot << s.etchReason << s.reason;
  }
  static chairside::StepRun read(RowReader& row) {
    return {.field = row,
            .step = row,
            .teeth = {},
            .result = row,
            .lasted = row.maybe(),
            .target = row.maybe(),
            .source = row,
            .timer = row.maybe(),
            .light = row.maybe(),
            .lot = row.maybe(),
            .etchReason = row,
            .reason = row};
  }
  static void writeParts(Connection& connection, base::EntryId entry, const chairside::StepRun& s);
  static void readParts(Connection& connection, base::EntryId entry, chairside::StepRun& s);
};

template <>
struct Rows<chairside::Wet> {
  static constexpr std::string_view table = "wet";
  static constexpr std::string_view columns = "field, stage, cause, note";
  template <class Row>
  static void write(Row& row, const chairside::Wet& w) {
    row << w.field << w.stage << w.cause << w.note;
  }
  static chairside::Wet read(RowReader& row) {
    return {.field = row, .teeth = {}, .stage = row, .cause = row, .note = row};
  }
  static void writeParts(Connection& connection, base::EntryId entry, const chairside::Wet& w);
  static void readParts(Connection& connection, base::EntryId entry, chairside::Wet& w);
};

template <>
struct Rows<chairside::Placement> {
  static constexpr std::string_view table = "placement";
  static constexpr std::string_view columns =
      "child, day, field, tooth, surfaces, type, attempt, placed_by, assistant, isolation, "
      "four_handed, sealant, etchant, light, etched_ms, cured_ms, cures, interrupted_cures, "
      "wet_events, etches, frosty, check_result, note";
  template <class Row>
  static void write(Row& row, const chairside::Placement& p) {
    row << p.child << p.day << p.field << p.tooth << p.surfaces << p.type << p.attempt << p.placedBy
        << p.assistant << p.isolation << p.fourHanded << p.sealant << p.etchant << p.light
        << p.etched << p.cured << p.cures << p.interruptedCures << p.wetEvents << p.etches
        << p.frosty << p.check << p.note;
  }
  static chairside::Placement read(RowReader& row) {
    return {.child = row,
            .day = row,
            .field = row,
            .tooth = row,
            .surfaces = row,
            .type = row,
            .attempt = row,
            .placedBy = row,
            .assistant = row.maybe(),
            .isolation = row,
            .fourHanded = row,
            .sealant = row,
            .etchant = row.maybe(),
            .light = row.maybe(),
            .etched = row.maybe(),
            .cured = row.maybe(),
            .cures = row,
            .interruptedCures = row,
            .wetEvents = row,
            .etches = row,
            .frosty = row,
            .check = row,
            .note = row};
  }
};

} // namespace gk::store
