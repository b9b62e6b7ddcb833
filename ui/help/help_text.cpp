#include "ui/help/help_text.h"

#include "ui/support/text.h"

#include <array>

namespace gk::ui {

namespace {

struct PageHelp {
  const char16_t* page;
  const char16_t* words;
};

constexpr std::array pages{
    PageHelp{u"dayBoardPage",
             u"The day board lists every student with consent for today. Type a number or a name, "
             u"or scan the slip; Enter takes the student to the chair.\n\n"
             u"Whoever is not seen gets an outcome here: absent, declined, out of time, left "
             u"school. A form that came back today is entered with Late form.\n\n"
             u"Red means stop: a medical stop that a clinician has to decide first. Yellow asks "
             u"for something; nothing is wrong yet."},
    PageHelp{u"chairPage",
             u"One student from identity to finish. The track at the top says where you are. "
             u"The large filled key is what comes next.\n\n"
             u"W records contamination, X stops the visit, U takes back the last entry, Tab goes "
             u"to the next tooth. A curing light that goes out too soon is Esc. An alert at the "
             u"head is resolved with Bksp, by a clinician.\n\n"
             u"Pause visit keeps all that is recorded; the same student is resumed later. After "
             u"a crash the visit continues where it was."},
    PageHelp{u"closeOutPage",
             u"The close-out lists what is left before the day can be signed. Go through the "
             u"steps from the top; urgent ones come first. Enter opens the item of a row.\n\n"
             u"Sign opens once nothing is left. Two people sign: a clinician for the clinical "
             u"content, another for completeness.\n\n"
             u"After that, changes are late entries, or the day is reopened with a reason."},
    PageHelp{u"totalsPage",
             u"A term counted: how many students were reached, what was done, and how many "
             u"sealants held. Enter on a number shows its details.\n\n"
             u"Small numbers are too few to judge a school or a person. Intervals say how far "
             u"chance may carry a figure."},
    PageHelp{
        u"deskPage",
        u"What the program is set up with: program, schools, terms, team, lights, lots, "
        u"students, years, letters, laptops. The check list (Alt+0) says what is missing for a "
        u"clinic day, and why.\n\n"
        u"Every change is kept with who made it and when."},
    PageHelp{u"formDeskPage",
             u"Paper forms typed in stacks, with or without a school day. What a stack shares is "
             u"set once at the top. Then for each form: number or name, Enter; Y, L, N or I; "
             u"Enter; the signing date as 1120; Enter.\n\n"
             u"Count and chase shows what is back by room, and whose form is missing. A form typed "
             u"wrong is corrected with a reason; what it said before is kept."},
    PageHelp{u"printsPage",
             u"Consent forms, labels, lists, and a paper sheet for each student should the laptop "
             u"fail. A printed code is the student's number and nothing else.\n\n"
             u"A visit on paper is typed at the chair afterwards, top to bottom; then Alt+P on the "
             u"day board with the number of the sheet."},
    PageHelp{u"calendarPage",
             u"Days planned ahead. Planning opens nothing: the school day is opened on its date. "
             u"Students not seen this term are shared over the days planned at their school. What "
             u"is expected of them comes from earlier terms' own shares; blank without one."},
    PageHelp{u"todayPage", u"Who works today and with what. It is carried to every student until "
                           u"you change it. What may not be used is shown with the reason."},
    PageHelp{u"readinessPage",
             u"Checked once before the first student. Whatever failed or was skipped is listed in "
             u"the close-out."},
    PageHelp{u"incidentPage", u"First care for the person. Then record what happened, who was "
                              u"told, and what is left to do."},
    PageHelp{u"laptopPage", u"Pedal, scanner, sound, letters and backups of this laptop."},
    PageHelp{u"cautionsPage", u"What a logbook cannot know. Your state practice act, program "
                              u"protocol and the manufacturer's instructions come first."}};

const QString everywhere =
    u"A day in six steps\n"
    u"1. Equipment check (F9) and team (F5).\n"
    u"2. Open the day on the day board (F1).\n"
    u"3. Each student at the chair (F2): identity, screening, sealing, varnish, finish.\n"
    u"4. Outcomes of whoever was not seen (F1).\n"
    u"5. Close-out (F3): calls, letters, supplies, paper, hours.\n"
    u"6. Two people sign, and the logbook is backed up.\n\n"
    u"F11 hides the screen; F12 locks the names. Nothing leaves this laptop by itself."_s;

} // namespace

QString helpOn(const QString& page) {
  for (const auto& one : pages)
    if (page == QStringView(one.page))
      return QStringView(one.words).toString() + u"\n\n"_s + everywhere;
  return everywhere;
}

} // namespace gk::ui
