#include "demo.h"

#include "telling/story.h"

namespace gk::demo {

namespace {

using base::Done;
using base::Error;
using base::ErrorCode;
using base::Path;
using base::Result;

Error refused(const Path& file, const std::string& why) {
  return {ErrorCode::fileUnwritable,
          file.string() + " " + why + "; name another folder, or say --fresh to replace it"};
}

/// Whether what lies at `file` may go.
Result<Done> mayReplace(const Path& file, Replace replace) {
  std::error_code unread;
  if (!std::filesystem::exists(file, unread) || replace == Replace::anything) return Done{};
  base::SystemClock clock;
  base::SystemRandom random;
  const base::LaptopId reader(base::makeUuid7(clock.now().at, random));
  auto book = session::Session::open(file, reader, {clock, random}, store::Access::readOnly);
  if (!book) return refused(file, "cannot be read as a logbook (" + book.error().detail + ")");
  const auto program = book->program();
  if (program && program->value.name == programName) return Done{};
  return refused(file, "is the logbook of another program");
}

Result<Done> tellAll(Story& story, Until until) {
  try {
    setUp(story);
    tellAutumn2025(story);
    tellAutumn2026(story);
    tellLastDay(story, until == Until::closed);
    story.teller.at("finishing the logbook");
    story.teller.must(story.a->finish());
    return Done{};
  } catch (const Halt& halt) {
    return halt.error;
  }
}

Result<Done> putInPlace(const Path& made, const Path& target) {
  std::error_code failed;
  std::filesystem::rename(made, target, failed);
  if (failed) return Error{ErrorCode::fileUnwritable, target.string() + ": " + failed.message()};
  return Done{};
}

} // namespace

Result<Done> buildDemo(const Path& folder, Until until, Replace replace) {
  if (auto made = base::makeFolder(folder); !made) return made;
  const auto target = folder / "demo.gkbook";
  if (auto may = mayReplace(target, replace); !may) return may;
  Story story{.teller = {}, .work = folder / ".telling"};
  std::error_code unremoved;
  std::filesystem::remove_all(story.work, unremoved); // left by a telling that was cut off
  if (auto made = base::makeFolder(story.work); !made) return made;
  auto told = tellAll(story, until);
  story.b.reset();
  story.a.reset();
  if (told) told = putInPlace(story.work / "a.gkbook", target);
  std::filesystem::remove_all(story.work, unremoved);
  if (!told) return told;
  return base::replaceFile(folder / "passphrase.txt", std::string(passphrase) + "\n");
}

} // namespace gk::demo
