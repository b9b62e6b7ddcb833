#include "office/run.h"

#include "base/text/text.h"
#include "office/call/verbs.h"

#include <algorithm>
#include <ostream>
#include <streambuf>
#include <string>

namespace gk::office {

using base::Error;
using base::ErrorCode;
using base::Result;

namespace {

const std::vector<Verb>& verbs() {
  static const std::vector<Verb> all = [] {
    std::vector<Verb> list;
    for (const auto& family : {bookVerbs(),   applyVerbs(),   setupVerbs(),    correctingVerbs(),
                               kitVerbs(),    rosterVerbs(),  childVerbs(),    erasureVerbs(),
                               keyVerbs(),    papersVerbs(),  envelopeVerbs(), authorizationVerbs(),
                               dayVerbs(),    closingVerbs(), letterVerbs(),   totalsVerbs(),
                               reportVerbs(), exportVerbs(),  estimateVerbs(), comparingVerbs()})
      list.insert(list.end(), family.begin(), family.end());
    return list;
  }();
  return all;
}

std::string helpPage() {
  std::string page = "groovekeeper-office VERB [OPERANDS] [OPTIONS]\n"
                     "The office side of a sealant team's logbook; VERB --help says more.\n\n";
  for (const auto& verb : verbs()) {
    auto left = std::string(verb.shape.name) + " " + std::string(verb.shape.operands);
    left.resize(std::max<std::size_t>(left.size() + 1, 30), ' ');
    page += "  " + left + std::string(verb.shape.help) + "\n";
  }
  return page + "\nExit code: 0 OK, 1 the answer is a finding, 2 a wrong command or an error.\n";
}

Error noSuchVerb(std::span<const std::string> args) {
  std::vector<std::string_view> names;
  for (const auto& verb : verbs())
    names.push_back(verb.shape.name);
  std::string said = args.front();
  if (said == "estimate" && args.size() == 1)
    return {ErrorCode::callMalformed,
            "estimate what? say estimate averted, retention, attack-rate, money, curve, compare, "
            "funnel or shrink"};
  if (said == "estimate") said += " " + args[1];
  const auto near = nearest(said, names);
  return {ErrorCode::callMalformed, "there is no verb \"" + said + "\"; " +
                                        (near.empty() ? "" : "did you mean " + near + "? ") +
                                        "groovekeeper-office --help lists them"};
}

Result<Exit> answer(std::span<const std::string> args, const Surroundings& around) {
  if (args.empty())
    return Error{ErrorCode::callMalformed,
                 "a verb is missing; groovekeeper-office --help lists them"};
  if (args[0] == "--help" || (args[0] == "estimate" && args.size() > 1 && args[1] == "--help")) {
    around.out << helpPage();
    return Exit::fine;
  }
  if (args[0] == "--version") {
    around.out << "groovekeeper-office " GK_VERSION "\n";
    return Exit::fine;
  }
  for (const auto& verb : verbs()) {
    const std::string name(verb.shape.name);
    const bool isPair = name.find(' ') != std::string::npos;
    const std::size_t words = isPair ? 2 : 1;
    if (args.size() < words || (isPair ? args[0] + " " + args[1] : args[0]) != name) continue;
    const auto call = Call::parse(verb.shape, args.subspan(words));
    if (!call) return call.error();
    if (!call->wantsHelp()) return verb.work(*call, around);
    around.out << helpOf(verb.shape);
    return Exit::fine;
  }
  return noSuchVerb(args);
}

/// What a terminal would obey is shown as "?", line by line: a file's name may hold anything.
class SafeLines : public std::streambuf {
 public:
  explicit SafeLines(std::ostream& out) : out_(out) {}
  SafeLines(const SafeLines&) = delete;
  SafeLines& operator=(const SafeLines&) = delete;
  ~SafeLines() override { put(); }

 protected:
  int_type overflow(int_type c) override {
    if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
    const char sign = traits_type::to_char_type(c);
    if (sign != '\n' && sign != '\r' && sign != '\t') {
      piece_ += sign;
      return c;
    }
    put();
    return out_.put(sign) ? c : traits_type::eof();
  }
  int sync() override {
    put();
    return out_.flush() ? 0 : -1;
  }

 private:
  void put() {
    out_ << base::printable(piece_);
    piece_.clear();
  }
  std::ostream& out_;
  std::string piece_; ///< since the last end of a line or tab
};

} // namespace

int run(std::span<const std::string> args, const Surroundings& given) {
  SafeLines lines(given.out);
  std::ostream out(&lines);
  const Surroundings around{given.clock, given.random,      given.in,     out,
                            given.err,   given.environment, given.machine};
  auto done = answer(args, around);
  around.out.flush();
  if (done && !around.out)
    done = Error{ErrorCode::fileUnwritable, "the answer could not be written out; see that the "
                                            "disk it goes to has room"};
  if (done) return static_cast<int>(*done);
  around.err << "groovekeeper-office: " << base::errorName(done.error().code) << ": "
             << base::printable(done.error().detail) << '\n';
  return static_cast<int>(Exit::trouble);
}

} // namespace gk::office
