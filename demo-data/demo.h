#pragma once

#include "base/files/files.h"
#include "base/result.h"

namespace gk::demo {

/// How far the story is told.
enum class Until {
  partDay, ///< the middle of the morning of 17 November 2026, with children still waiting
  closed,  ///< 17 November 2026 closed out and signed
};

/// What to do about a logbook that is in the folder already.
enum class Replace {
  demoOnly, ///< a demo logbook is replaced, any other file is refused with `fileUnwritable`
  anything,
};

inline constexpr const char* passphrase = "larkmere demo 2026";
inline constexpr const char* programName = "Larkmere County School Sealant Team";

/// Tells the two autumns of Larkmere County from two laptops through the Session's verbs, always
/// the same, and leaves `demo.gkbook` (one book, merged) and `passphrase.txt` in `folder`, which is
/// made where missing. An error names the step of the story; the older file is then unchanged.
base::Result<base::Done> buildDemo(const base::Path& folder, Until until,
                                   Replace replace = Replace::demoOnly);

/// Writes the close-out of the newest day and the totals of both terms to `folder`/reports as text,
/// HTML and CSV; the text of all three comes back.
base::Result<std::string> writePapers(const base::Path& folder);

} // namespace gk::demo
