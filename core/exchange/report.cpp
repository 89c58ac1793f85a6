#include "core/exchange/report.h"

#include "core/chemistry/hazards.h"
#include "core/exchange/contradictions.h"
#include "core/exchange/export_parts.h"
#include "core/exchange/report_prints.h"
#include "core/exchange/words.h"

#include <algorithm>

namespace washfast::exchange {

namespace {

constexpr int densityDecimals = 2;
constexpr qsizetype mostFindings = 12;

class Maker {
public:
    Maker(const ExportSelection& selection, const ReportOptions& options)
        : selection_(selection)
        , notebook_(*selection.notebook)
        , options_(options)
        , prints_(selection)
    {
    }
    Report make()
    {
        titles();
        if (selection_.prints.empty()) {
            add(ReportPart::Kind::Text, Words::tr("There are no prints."));
        } else {
            whatWasMade();
            charts();
            whatWentWrong();
            everyPrint();
            dataNotes();
        }
        cautions();
        return std::move(report_);
    }

private:
    void add(ReportPart::Kind kind, const QString& text)
    {
        ReportPart part;
        part.kind = kind;
        part.text = text;
        report_.parts.push_back(std::move(part));
    }
    void heading(const char* text) { add(ReportPart::Kind::Heading, Words::tr(text)); }
    void list(const QStringList& items)
    {
        ReportPart part;
        part.kind = ReportPart::Kind::List;
        part.items = items;
        if (!items.isEmpty())
            report_.parts.push_back(std::move(part));
    }
    void table(ReportTable table)
    {
        ReportPart part;
        part.kind = ReportPart::Kind::Table;
        part.table = std::move(table);
        if (!part.table.rows.empty())
            report_.parts.push_back(std::move(part));
    }
    void chart(ReportChart chart)
    {
        ReportPart part;
        part.kind = ReportPart::Kind::Chart;
        part.chart = std::move(chart);
        report_.parts.push_back(std::move(part));
    }
    [[nodiscard]] QString sessionName(int session) const
    {
        return notebook_.nameOf({ Entity::Session, notebook_.table(Entity::Session).id(session) });
    }
    [[nodiscard]] std::optional<Instant> sessionStart(int session) const
    {
        return notebook_.get({ Entity::Session, notebook_.table(Entity::Session).id(session) }, u"session_start")
            .time();
    }

    void titles()
    {
        report_.title = selection_.term.isEmpty() ? Words::tr("Blue prints with iron salts")
                                                  : Words::tr("Blue prints of %1").arg(selection_.term);
        QStringList words {
            Words::tr("Sessions: %1").arg(selection_.sessions.size()),
            Words::tr("prints: %1").arg(selection_.prints.size()),
        };
        std::optional<Instant> first;
        std::optional<Instant> last;
        for (const int session : selection_.sessions)
            if (const auto start = sessionStart(session)) {
                first = !first || *start < *first ? start : first;
                last = !last || *last < *start ? start : last;
            }
        if (first)
            words << Words::tr("%1 to %2").arg(reportTime(first).left(10), reportTime(last).left(10));
        if (options_.written.isValid())
            words << Words::tr("written %1").arg(options_.written.toString(Qt::ISODate));
        report_.subtitle = words.join(QStringLiteral(" · "));
    }

    void whatWasMade()
    {
        heading(QT_TRANSLATE_NOOP("Exchange", "What was made"));
        const auto all = prints_.tally();
        add(ReportPart::Kind::Text,
            Words::tr("Of %n prints %1 kept, %2 failed, and of %3 no outcome was recorded. A print has failed when any "
                      "outcome but “kept” was recorded.",
                nullptr, all.prints)
                .arg(all.kept)
                .arg(all.failed)
                .arg(all.notJudged()));
        ReportTable sessions;
        sessions.caption = Words::tr("Sessions");
        sessions.headings = { Words::tr("Session"), Words::tr("Group"), Words::tr("When"), Words::tr("Prints"),
            Words::tr("Kept"), Words::tr("Failed"), Words::tr("Not judged"), Words::tr("Net density, median"),
            Words::tr("Share kept, median") };
        sessions.figures = { false, false, false, true, true, true, true, true, true };
        for (const int session : selection_.sessions) {
            const auto tally = prints_.tally(session);
            const auto group
                = notebook_.get({ Entity::Session, notebook_.table(Entity::Session).id(session) }, u"session_group")
                      .text();
            sessions.rows.push_back(
                { sessionName(session), group.value_or(notRecorded()), reportTime(sessionStart(session)),
                    QString::number(tally.prints), QString::number(tally.kept), QString::number(tally.failed),
                    QString::number(tally.notJudged()), reportNumber(medianOf(tally.net), densityDecimals),
                    reportNumber(medianOf(tally.share), densityDecimals) });
        }
        table(std::move(sessions));
        mixes();
    }
    void mixes()
    {
        ReportTable mixes;
        mixes.caption = Words::tr("Mixes");
        mixes.headings = { Words::tr("Mix"), Words::tr("Formula"), Words::tr("Made"), Words::tr("pH"),
            Words::tr("Prints"), Words::tr("Kept"), Words::tr("Failed") };
        mixes.figures = { false, false, false, true, true, true, true };
        const int link = notebook_.catalogue().column(Entity::Print, u"print_mix");
        for (const int mix : selection_.mixes) {
            const Ref ref(Entity::Mix, notebook_.table(Entity::Mix).id(mix));
            int used = 0;
            int kept = 0;
            int failed = 0;
            for (const int print : selection_.prints)
                if (notebook_.prints().link(print, link) == ref.id) {
                    ++used;
                    kept += prints_.mark(print) == ReportMark::Kept ? 1 : 0;
                    failed += prints_.mark(print) == ReportMark::Failed ? 1 : 0;
                }
            const auto formula = notebook_.get(ref, u"mix_formula").link();
            const auto name = formula ? notebook_.nameOf({ Entity::Formula, *formula }) : QString();
            mixes.rows.push_back({ notebook_.nameOf(ref), name.isEmpty() ? notRecorded() : name,
                reportTime(notebook_.get(ref, u"mix_made").time()),
                reportNumber(notebook_.get(ref, u"mix_ph").number(), 1), QString::number(used), QString::number(kept),
                QString::number(failed) });
        }
        table(std::move(mixes));
    }

    void charts()
    {
        ReportChart strip;
        strip.title = Words::tr("What the rinse left, session by session");
        strip.x_label = Words::tr("session");
        strip.y_label = Words::tr("share kept a day after");
        ReportChart dose;
        dose.title = Words::tr("Dose and net density");
        dose.x_label = Words::tr("dose at the paper, J/cm², 315 to 400 nm");
        dose.y_label = Words::tr("net density a day after");
        for (const int session : selection_.sessions) {
            const auto place = double(strip.groups.size());
            for (const int print : prints_.of(session))
                if (const auto share = prints_.number(print, "kept"))
                    strip.points.push_back({ place, *share, prints_.mark(print) });
            strip.groups << sessionName(session);
            strip.medians.push_back(medianOf(prints_.tally(session).share));
        }
        for (const int print : selection_.prints) {
            const auto x = prints_.number(print, "dose_j_cm2");
            const auto y = prints_.number(print, "net_density");
            if (x && y)
                dose.points.push_back({ *x, *y, prints_.mark(print) });
        }
        strip.says = Words::tr("%n prints have both tones; the line in each session is its median, which the table of "
                               "sessions gives.",
            nullptr, int(strip.points.size()));
        dose.says = Words::tr(
            "%n prints have a dose and a net density; the tables give them.", nullptr, int(dose.points.size()));
        if (strip.points.empty() && dose.points.empty())
            return;
        heading(QT_TRANSLATE_NOOP("Exchange", "At a glance"));
        if (!strip.points.empty())
            chart(std::move(strip));
        if (!dose.points.empty())
            chart(std::move(dose));
    }

    void whatWentWrong()
    {
        heading(QT_TRANSLATE_NOOP("Exchange", "What went wrong"));
        list(outcomes());
        if (options_.answers.empty())
            return;
        add(ReportPart::Kind::Note,
            Words::tr(
                "What the search for causes says. It compares prints that failed with prints that kept; such a "
                "comparison finds what goes together and cannot prove what caused it. What was not recorded cannot be "
                "found."));
        for (const auto& answer : options_.answers) {
            add(ReportPart::Kind::Strong, answer.about + QStringLiteral(": ") + answer.verdict);
            list(answer.sentences);
        }
    }
    [[nodiscard]] QStringList outcomes() const
    {
        const auto& field = notebook_.catalogue().columnField(Entity::Print, u"print_outcome");
        QStringList items;
        for (const auto& choice : field.choices) {
            QStringList codes;
            for (const int print : selection_.prints) {
                const Ref ref(Entity::Print, notebook_.prints().id(print));
                if (splitSet(notebook_.get(ref, field.key).text().value_or(QString())).contains(choice.key))
                    codes << prints_.code(print);
            }
            if (codes.isEmpty() || choice.key == QLatin1String("kept"))
                continue;
            items << QStringLiteral("%1: %2 (%3)")
                         .arg(choice.label, QString::number(codes.size()), codes.join(QStringLiteral(", ")));
        }
        const auto signs = signCounts();
        if (items.isEmpty())
            items << Words::tr("No failure was recorded.");
        return items + signs;
    }
    [[nodiscard]] QStringList signCounts() const
    {
        const auto& field = notebook_.catalogue().columnField(Entity::Sign, u"sign_kind");
        std::vector<int> counts(field.choices.size(), 0);
        for (const int print : selection_.prints)
            for (const int row : notebook_.children(Entity::Sign, notebook_.prints().id(print))) {
                const auto kind = notebook_.table(Entity::Sign).at(row, field.ordinal).text();
                const int place = kind ? field.choiceIndex(*kind) : -1;
                const Ref sign { Entity::Sign, notebook_.table(Entity::Sign).id(row) };
                if (notebook_.get(sign, u"sign_found").text() == QLatin1String("rejected"))
                    continue; // proposed from a photo and turned down: no sign
                if (place >= 0)
                    ++counts[size_t(place)];
            }
        QStringList words;
        for (size_t i = 0; i < counts.size(); ++i)
            if (counts[i] > 0)
                words << QStringLiteral("%1 %2").arg(field.choices[i].label, QString::number(counts[i]));
        if (words.isEmpty())
            return {};
        return { Words::tr("Signs seen: %1").arg(words.join(QStringLiteral(", "))) };
    }

    void everyPrint()
    {
        heading(QT_TRANSLATE_NOOP("Exchange", "Every print"));
        add(ReportPart::Kind::Note,
            Words::tr(
                "Numbers are measured, or worked out from measurements, unless marked: ≈ estimated, in parentheses "
                "assumed. – was not recorded. Formed is the net density before the rinse, kept the share of it that "
                "was still there a day after."));
        const auto columns = prints_.columns(options_.makers);
        for (const int session : selection_.sessions)
            table(prints_.table(Words::tr("Session %1").arg(sessionName(session)), prints_.of(session), columns));
        table(prints_.table(Words::tr("Prints of no session"), prints_.of(-1), columns));
    }

    void dataNotes()
    {
        heading(QT_TRANSLATE_NOOP("Exchange", "What the data are worth"));
        ReportTable worth;
        worth.caption = Words::tr("How the numbers came to be, in prints");
        worth.headings = { Words::tr("Field"), Words::tr("Measured"), Words::tr("Estimated"), Words::tr("Assumed"),
            Words::tr("Not recorded") };
        worth.figures = { false, true, true, true, true };
        const auto all = int(selection_.prints.size());
        for (const auto& one : prints_.worth())
            if (one.field->kind == Kind::Number)
                worth.rows.push_back({ one.field->labelWithUnit(), QString::number(one.measured),
                    QString::number(one.estimated), QString::number(one.assumed), QString::number(all - one.known()) });
        table(std::move(worth));
        QStringList findings;
        for (const auto& finding : findContradictions(notebook_))
            if (isHere(finding.print))
                findings << QStringLiteral("%1: %2").arg(finding.print, finding.says);
        if (findings.isEmpty())
            return;
        add(ReportPart::Kind::Text,
            Words::tr("Records that contradict one another, or are hard to believe: %1.").arg(findings.size()));
        const auto more = findings.size() - mostFindings;
        list(findings.mid(0, mostFindings));
        if (more > 0)
            add(ReportPart::Kind::Note, Words::tr("And %1 more; “washfast check” lists them all.").arg(more));
    }
    [[nodiscard]] bool isHere(const QString& code) const
    {
        const auto id = code.isEmpty() ? std::nullopt : notebook_.byName(Entity::Print, code);
        const int row = id ? notebook_.prints().find(*id) : -1;
        return std::binary_search(selection_.prints.begin(), selection_.prints.end(), row);
    }

    void cautions()
    {
        heading(QT_TRANSLATE_NOOP("Exchange", "Cautions"));
        add(ReportPart::Kind::Text,
            Words::tr("Common cautions for whoever repeats this work.") + QLatin1Char(' ') + chemistry::deferral());
        QStringList items;
        for (const auto& caution : chemistry::allCautions())
            items << caution.what + QLatin1Char(' ') + caution.todo;
        list(items);
    }

    const ExportSelection& selection_;
    const Notebook& notebook_;
    const ReportOptions& options_;
    ReportPrints prints_;
    Report report_;
};

} // namespace

Report makeReport(const ExportSelection& selection, const ReportOptions& options)
{
    return Maker(selection, options).make();
}

} // namespace washfast::exchange
