#include "followup/copies/backup_rotation.h"

#include "base/random.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace gk;
using followup::BackupFile;
using followup::outdatedBackups;

namespace {

const followup::BackupOwner larkmere{"larkmere", "3f2a"};

base::Date date(std::string_view iso) {
  return *base::Date::parse(iso);
}

BackupFile fileOf(base::Date on, int number = 1) {
  auto name = followup::backupFileName(larkmere, on);
  if (number > 1)
    name.insert(name.size() - std::string(".gkbook").size(), "-" + std::to_string(number));
  return {name, on, number};
}

/// One a day from a Monday on.
std::vector<BackupFile> daily(int count, base::Date from) {
  std::vector<BackupFile> files;
  for (int i = 0; i < count; ++i)
    files.push_back(fileOf(from.plusDays(i)));
  return files;
}

} // namespace

TEST_CASE("A backup is named by date, book and laptop, and known again by its name alone",
          "[case-279]") {
  CHECK(followup::backupFileName(larkmere, date("2026-11-17")) ==
        "larkmere-backup-2026-11-17-3f2a.gkbook");
  CHECK(followup::parseBackupName("larkmere-backup-2026-11-17-3f2a.gkbook", larkmere) ==
        fileOf(date("2026-11-17")));
  CHECK(followup::parseBackupName("larkmere-backup-2026-11-17-3f2a-12.gkbook", larkmere) ==
        fileOf(date("2026-11-17"), 12));
}

TEST_CASE("A name that is not one of ours is no one's to remove", "[case-280]") {
  for (const auto* name :
       {"larkmere.gkbook", "larkmere-backup-2026-11-17-9c11.gkbook", // another laptop's
        "bramblewick-backup-2026-11-17-3f2a.gkbook", "larkmere-backup-2026-11-17-3f2a.gkbook.old",
        "larkmere-backup-2026-02-30-3f2a.gkbook", "larkmere-backup-2026-11-17-3f2a-1.gkbook",
        "larkmere-backup-2026-11-17-3f2a-02.gkbook", "larkmere-backup-2026-11-17-3f2a-x.gkbook",
        "larkmere-backup-2026-11-17-3f2a2.gkbook", "larkmere-backup-2026-11-17.gkbook",
        "larkmere-backup-2026-11-17-3f2a copy.gkbook", "larkmere-backup-", "", ".gkbook"}) {
    CAPTURE(name);
    CHECK_FALSE(followup::parseBackupName(name, larkmere));
  }
}

TEST_CASE("The last ten days and the last backup of each month are kept", "[case-280]") {
  // 1 September to November 17, 2026, one a day: 78 of them.
  const auto files = daily(78, date("2026-09-01"));
  const auto gone = outdatedBackups(files, files.back().name);
  CHECK(gone.size() == 66);
  for (const auto& file : files) {
    const bool isLate = file.on >= date("2026-11-08");
    const bool endsMonth = file.on == date("2026-09-30") || file.on == date("2026-10-31");
    INFO(file.name);
    CHECK((std::ranges::find(gone, file.name) == gone.end()) == (isLate || endsMonth));
  }
}

TEST_CASE("Of several backups of one day the last is kept", "[case-280]") {
  const auto on = date("2026-11-17");
  const std::vector<BackupFile> files{fileOf(on), fileOf(on, 2), fileOf(on, 10)};
  CHECK(outdatedBackups(files, fileOf(on, 10).name) ==
        std::vector<std::string>{fileOf(on, 2).name, fileOf(on).name});
}

TEST_CASE("The backup just written stays whatever the clock said of the others", "[case-280]") {
  // A laptop whose battery was dead writes today's backup as of 1980.
  auto files = daily(30, date("2026-11-01"));
  files.push_back(fileOf(date("1980-01-01")));
  files.push_back(fileOf(date("1980-01-01"), 2));
  const auto gone = outdatedBackups(files, fileOf(date("1980-01-01")).name);
  CHECK(std::ranges::find(gone, fileOf(date("1980-01-01")).name) == gone.end());
}

TEST_CASE("Nothing goes unless the one just written is there", "[case-280]") {
  const auto files = daily(78, date("2026-09-01"));
  CHECK(outdatedBackups(files, "").empty());
  CHECK(outdatedBackups(files, "larkmere-backup-2027-01-01-3f2a.gkbook").empty());
  CHECK(outdatedBackups({}, "x").empty());
}

TEST_CASE("Whatever lies there, the newest days stay and rotating twice takes no more",
          "[case-280]") {
  base::SeededRandom random(275);
  for (int round = 0; round < 200; ++round) {
    std::vector<BackupFile> files;
    for (std::uint64_t i = 0; i < 1 + random.below(60); ++i) {
      const auto day = date("2026-01-01").plusDays(static_cast<int>(random.below(500)));
      auto one = fileOf(day, 1 + static_cast<int>(random.below(3)));
      if (std::ranges::find(files, one) == files.end()) files.push_back(one);
    }
    const auto written = files[random.below(files.size())].name;
    const auto gone = outdatedBackups(files, written);
    std::erase_if(files,
                  [&](const auto& one) { return std::ranges::find(gone, one.name) != gone.end(); });
    REQUIRE_FALSE(files.empty());
    CHECK(outdatedBackups(files, written).empty());
    CHECK(std::ranges::find(files, written, &BackupFile::name) != files.end());
  }
}
