#pragma once

#include "base/files/files.h"
#include "reports/day/close_out_tables.h"
#include "reports/print/render.h"
#include "reports/records/inputs.h"
#include "reports/term/term_tables.h"
#include "session/agreeing.h"
#include "session/whole_content.h"

#include <algorithm>
#include <memory>
#include <set>

namespace gk::test {

/// By the newest of these that opens the names; that one.
inline std::string unlockNewest(session::Session& book, const std::vector<std::string>& words) {
  for (auto one = words.rbegin(); one != words.rend(); ++one)
    if (book.unlock(*one)) return *one;
  FAIL("none of the passphrases opens the names");
  return {};
}

/// A computer with its own folder, clock and memory of hands, and one logbook.
struct Computer {
  base::Path folder;
  base::ManualClock clock;
  base::SeededRandom random;
  base::Machine machine;
  std::optional<session::Session> open{};
  /// What its people know, the newest last.
  std::shared_ptr<std::vector<std::string>> passphrases =
      std::make_shared<std::vector<std::string>>(1, Clinic::passphrase);
  std::string openedWith{};

  Computer(base::Path where, base::LocalInstant now, std::uint64_t seed)
      : folder(std::move(where)), clock(now),
        random(seed), machine{"computer " + std::to_string(seed), "start"} {
    must(base::makeFolder(folder));
  }
  [[nodiscard]] base::Path book() const { return folder / "day.gkbook"; }

  session::Session& use() {
    if (!open) {
      open.emplace(must(session::Session::open(
          book(), store::HandMemory(folder / "config", machine, random), {clock, random},
          store::Access::readWrite, session::BookKind::throwaway)));
      openedWith = unlockNewest(*open, *passphrases);
    }
    return *open;
  }
  void close() {
    if (open) must(open->finish());
    open.reset();
  }
  /// What is carried away on a stick.
  base::Path copyTo(const base::Path& path) {
    must(use().backUp(path));
    return path;
  }
  void restore(const base::Path& backup) {
    close();
    std::filesystem::remove(book());
    std::filesystem::copy_file(backup, book());
  }
  /// As a disk image on another computer.
  void cloneTo(Computer& other) {
    close();
    other.close();
    std::filesystem::remove_all(other.folder);
    std::filesystem::copy(folder, other.folder, std::filesystem::copy_options::recursive);
  }
};

/// A county's logbook, and what its laptops do to it.
struct County {
  Clinic clinic;
  std::vector<roster::ChildId> children;
  std::vector<std::unique_ptr<Computer>> laptops;
  int notes = 0;
  std::shared_ptr<std::vector<std::string>> passphrases =
      std::make_shared<std::vector<std::string>>(1, Clinic::passphrase);

  explicit County(int count) {
    for (const char* name : {"Mina", "Wren", "Lupe"})
      children.push_back(clinic.child(name));
    for (int i = 0; i < count; ++i) {
      laptops.push_back(std::make_unique<Computer>(*clinic.folder / ("laptop" + std::to_string(i)),
                                                   clinic.clock.now(),
                                                   static_cast<std::uint64_t>(100 + i)));
      laptops.back()->passphrases = passphrases;
      must(clinic.session.backUp(laptops.back()->book()));
    }
  }
  [[nodiscard]] std::vector<std::string> numbers() {
    std::vector<std::string> all;
    for (const auto& child : children)
      all.push_back(must(clinic.session.child(child)).value.number);
    return all;
  }
  Computer& at(std::size_t i) { return *laptops[i]; }

  void note(Computer& on, roster::ChildId child) {
    must(on.use().enterFlag(clinic.by, {.child = child,
                                        .kind = roster::FlagKind::other,
                                        .action = roster::FlagAction::note,
                                        .detail = "note " + std::to_string(++notes),
                                        .decided = {}}));
  }
  [[nodiscard]] base::Path fresh(const std::string& name) const {
    return base::freeName(*clinic.folder / (name + ".gkbook"));
  }
};

/// One logbook once all of them are merged into it, in this order.
inline base::Path mergedFrom(County& county, const std::vector<base::Path>& files) {
  const auto path = county.fresh("merged");
  std::filesystem::copy_file(files.front(), path);
  auto merged = must(session::Session::open(
      path, base::LaptopId(base::Uuid{}), {county.clinic.clock, county.clinic.random},
      store::Access::readWrite, session::BookKind::throwaway));
  for (const auto& other : files)
    must(absorbAll(merged, county.clinic.by, other));
  for (const auto& other : files) // once more, and nothing is new
    CHECK(must(absorbAll(merged, county.clinic.by, other)).newEntries == 0);
  unlockNewest(merged, *county.passphrases); // what opened a replaced key goes now
  CHECK(must(merged.findings()).empty());
  must(merged.finish());
  return path;
}

} // namespace gk::test
