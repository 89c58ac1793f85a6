#include "core/report/report_answers.h"

#include "core/causes/answer.h"
#include "core/causes/from_notebook.h"
#include "core/report/words.h"

#include <algorithm>

namespace washfast::report {

namespace {

QString labels(const causes::Answer& answer)
{
    QStringList names;
    for (const auto& name : answer.factors_named) {
        const auto found = std::find_if(answer.factors.begin(), answer.factors.end(),
            [&](const causes::FactorEvidence& factor) { return factor.name == name; });
        names << QStringLiteral("“%1”").arg(
            found == answer.factors.end() || found->label.isEmpty() ? name : found->label);
    }
    return names.join(QStringLiteral(", "));
}

QString verdict(const causes::Answer& answer)
{
    switch (answer.verdict) {
    case causes::Verdict::Cause:
        return Words::tr("a cause is named, %1.").arg(labels(answer));
    case causes::Verdict::Tangle:
        return Words::tr("these prints cannot tell apart what moved together: %1.").arg(labels(answer));
    case causes::Verdict::NotEnough:
        break;
    }
    return Words::tr("not enough to name a cause.");
}

/// The prints of one session, or all.
TermQuestion questionAbout(
    const PrintColumns& columns, const exchange::ExportSelection& selection, std::optional<qint64> session, int& failed)
{
    const auto& notebook = columns.notebook();
    const auto& outcome = columns.column(notebook.catalogue().printField(u"failed")).numbers;
    const int link = notebook.catalogue().column(Entity::Print, u"print_session");
    causes::NotebookChoices choices;
    choices.outcome = QStringLiteral("failed");
    choices.shown.assign(size_t(notebook.prints().rows()), 0);
    int judged = 0;
    failed = 0;
    for (const int print : selection.prints) {
        if (session && notebook.prints().link(print, link) != *session)
            continue;
        choices.shown[size_t(print)] = 1;
        judged += outcome[size_t(print)] >= 0 ? 1 : 0; // unknown is not a number
        failed += outcome[size_t(print)] > 0 ? 1 : 0;
    }
    const auto name = session ? Words::tr("Session %1").arg(notebook.nameOf({ Entity::Session, *session }))
                              : Words::tr("All of these prints");
    TermQuestion question;
    question.about = Words::tr("%1, %2 of %3 failed").arg(name, QString::number(failed), QString::number(judged));
    if (failed == 0)
        return question;
    auto table = causes::fromNotebook(columns, choices);
    if (table)
        question.table = std::move(table).value();
    else
        question.cannot = table.error().says;
    return question;
}

} // namespace

std::vector<TermQuestion> questionsFor(const PrintColumns& columns, const exchange::ExportSelection& selection)
{
    std::vector<TermQuestion> questions;
    int failed = 0;
    auto all = questionAbout(columns, selection, std::nullopt, failed);
    if (failed == 0)
        return questions;
    questions.push_back(std::move(all));
    const auto& sessions = selection.notebook->table(Entity::Session);
    if (selection.sessions.size() > 1)
        for (const int session : selection.sessions) {
            auto one = questionAbout(columns, selection, sessions.id(session), failed);
            if (failed >= failedToAsk)
                questions.push_back(std::move(one));
        }
    return questions;
}

std::vector<exchange::ReportAnswer> answersTo(
    const std::vector<TermQuestion>& questions, const std::function<bool(double)>& keep_going)
{
    std::vector<exchange::ReportAnswer> answers;
    for (size_t i = 0; i < questions.size(); ++i) {
        exchange::ReportAnswer says { questions[i].about, questions[i].cannot, {} };
        if (says.verdict.isEmpty()) {
            causes::Options options;
            options.firth = false; // the report gives the answer and its reasons, not the fits
            options.keep_going = [&](double share) {
                return !keep_going || keep_going((double(i) + share) / double(questions.size()));
            };
            const auto answer = causes::analyse(questions[i].table, options);
            if (answer.stopped)
                break;
            says.verdict = verdict(answer);
            says.sentences << answer.why;
            for (const auto& sentence : answer.evidence_for + answer.evidence_against)
                if (!answer.why.contains(sentence.chopped(1))) // the answer quotes some of them
                    says.sentences << sentence;
        }
        answers.push_back(std::move(says));
    }
    return answers;
}

} // namespace washfast::report
