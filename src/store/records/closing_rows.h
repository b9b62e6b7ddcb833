#pragma once

#include "followup/copies/backup_note.h"
#include "followup/copies/merge_answer.h"
#include "followup/copies/merge_note.h"
#include "followup/incident.h"
#include "followup/paper_count.h"
#include "kit/light.h"
#include "roster/days/addendum.h"
#include "roster/keys/erasure.h"
#include "store/rows/rows.h"

namespace gk::store {

template <>
struct Rows<followup::Incident> {
  static constexpr std::string_view table = "incident";
  static constexpr std::string_view columns =
      "day, child, type, happened, happened_offset, done, told, follow_up, settled";
  template <class Row>
  static void write(Row& row, const followup::Incident& i) {
    row << i.day << i.child << i.type << i.happened.at
        << static_cast<int>(i.happened.offset.count()) << i.done << i.told << i.followUp
        << i.settled;
  }
  static followup::Incident read(RowReader& row) {
    return {.day = row,
            .child = row.maybe(),
            .type = row,
            .happened = {.at = row, .offset = std::chrono::minutes(row.take<int>())},
            .done = row,
            .told = row,
            .followUp = row,
            .settled = row};
  }
};

template <>
struct Rows<followup::PaperCount> {
  static constexpr std::string_view table = "paper_count";
  static constexpr std::string_view columns = "day, paper, out, back, handed, shredded, reason";
  template <class Row>
  static void write(Row& row, const followup::PaperCount& c) {
    row << c.day << c.paper << c.out << c.back << c.handed << c.shredded << c.reason;
  }
  static followup::PaperCount read(RowReader& row) {
    return {.day = row,
            .paper = row,
            .out = row,
            .back = row,
            .handed = row,
            .shredded = row,
            .reason = row};
  }
};

template <>
struct Rows<followup::BackupNote> {
  static constexpr std::string_view table = "backup_note";
  static constexpr std::string_view columns = "day, file, same_disk, papers";
  template <class Row>
  static void write(Row& row, const followup::BackupNote& b) {
    row << b.day << b.file << b.sameDisk << b.papers;
  }
  static followup::BackupNote read(RowReader& row) {
    return {.day = row, .file = row, .sameDisk = row, .papers = row};
  }
};

template <>
struct Rows<followup::MergeNote> {
  static constexpr std::string_view table = "merge_note";
  static constexpr std::string_view columns = "entries, erased";
  template <class Row>
  static void write(Row& row, const followup::MergeNote& n) {
    row << n.entries << n.erased;
  }
  static followup::MergeNote read(RowReader& row) {
    return {.entries = row, .erased = row, .from = {}};
  }
  static void writeParts(Connection& connection, base::EntryId entry,
                         const followup::MergeNote& note);
  static void readParts(Connection& connection, base::EntryId entry, followup::MergeNote& note);
};

template <>
struct Rows<followup::MergeAnswer> {
  static constexpr std::string_view table = "merge_answer";
  static constexpr std::string_view columns = "day, child, other, kept, verdict, seen, note";
  template <class Row>
  static void write(Row& row, const followup::MergeAnswer& a) {
    row << a.day << a.child << a.other << a.kept << a.verdict << a.seen << a.note;
  }
  static followup::MergeAnswer read(RowReader& row) {
    return {.day = row,
            .child = row,
            .other = row.maybe(),
            .kept = row.maybe(),
            .verdict = row,
            .seen = row,
            .note = row};
  }
};

template <>
struct Rows<kit::LightPass> {
  static constexpr std::string_view table = "light_pass";
  static constexpr std::string_view columns = "day, light, reason";
  template <class Row>
  static void write(Row& row, const kit::LightPass& p) {
    row << p.day << p.light << p.reason;
  }
  static kit::LightPass read(RowReader& row) { return {.day = row, .light = row, .reason = row}; }
};

template <>
struct Rows<roster::Addendum> {
  static constexpr std::string_view table = "addendum";
  static constexpr std::string_view columns = "day, child, text";
  template <class Row>
  static void write(Row& row, const roster::Addendum& a) {
    row << a.day << a.child << a.text;
  }
  static roster::Addendum read(RowReader& row) {
    return {.day = row, .child = row.maybe(), .text = row};
  }
};

template <>
struct Rows<roster::Reopening> {
  static constexpr std::string_view table = "reopening";
  static constexpr std::string_view columns = "day, reason";
  template <class Row>
  static void write(Row& row, const roster::Reopening& r) {
    row << r.day << r.reason;
  }
  static roster::Reopening read(RowReader& row) { return {.day = row, .reason = row}; }
};

template <>
struct Rows<roster::Erasure> {
  static constexpr std::string_view table = "erasure";
  static constexpr std::string_view columns =
      "whom, number, request, authority, reason, personal_key, signature";
  template <class Row>
  static void write(Row& row, const roster::Erasure& e) {
    row << e.whom << e.number << e.request << e.authority << e.reason << e.key << e.signature;
  }
  static roster::Erasure read(RowReader& row) {
    return {.whom = row,
            .number = row,
            .request = row,
            .authority = row,
            .reason = row,
            .key = row.maybe(),
            .signature = row};
  }
};

template <>
struct Rows<roster::AgreementOverride> {
  static constexpr std::string_view table = "agreement_override";
  static constexpr std::string_view columns = "day, clinician, reason";
  template <class Row>
  static void write(Row& row, const roster::AgreementOverride& o) {
    row << o.day << o.clinician << o.reason;
  }
  static roster::AgreementOverride read(RowReader& row) {
    return {.day = row, .clinician = row, .reason = row};
  }
};

} // namespace gk::store
