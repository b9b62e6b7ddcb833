#include "base/files/files.h"
#include "office/call/adding.h"
#include "session/values/opened_papers.h"

#include <ostream>

namespace gk::office {

using base::Result;

namespace {

Result<Exit> openPapers(const Call& call, const Surroundings& around) {
  auto secret = passphraseNeeded(call, around);
  if (!secret) return secret.error();
  auto session = openToRead(call, around);
  if (!session) return session.error();
  if (const auto open = session->unlock(std::move(*secret)); !open) return open.error();
  const auto sealed = base::readFile(call.operand(1));
  if (!sealed) return sealed.error();
  const auto papers = session->openPapers(*sealed);
  if (!papers) return papers.error();
  const auto folder = session::writeOut(*papers, call.text("--to"));
  if (!folder) return folder.error();
  std::vector<std::string> names;
  for (const auto& paper : *papers)
    names.push_back(paper.name);
  if (call.wantsJson()) {
    JsonWriter json(around.out);
    json.beginObject();
    json.field("folder", folder->string());
    json.field("papers", names);
    json.endObject();
    return Exit::fine;
  }
  around.out << "Opened into " << folder->string() << ": " << base::join(names, ", ")
             << ".\nThey name students and are no longer sealed: delete the folder when you are "
                "done.\n";
  return Exit::fine;
}

} // namespace

std::vector<Verb> papersVerbs() {
  return {{{"open-papers",
            "FILE PAPERS",
            "writes the files out of sealed papers; FILE is the logbook or the backup beside them",
            {{"--to", "FOLDER", "a new folder for them", true}, passphraseOption()}},
           openPapers}};
}

} // namespace gk::office
