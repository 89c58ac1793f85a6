// What can be made without leaving the Bench: sessions, prints, and the shared records that prints need.
#include "core/store/print_fields.h"
#include "ui/bench/bench_model.h"
#include "ui/bench/bench_view.h"
#include "ui/bench/codes.h"
#include "ui/bench/new_prints.h"
#include "ui/common/record_dialog.h"

namespace washfast::ui {

namespace {

/// The field of a print, or the link of a session, that points at such a record.
QString printFieldFor(Entity entity)
{
    switch (entity) {
    case Entity::Mix:
        return QStringLiteral("mix_code");
    case Entity::Paper:
        return QStringLiteral("paper_name");
    case Entity::Cover:
        return QStringLiteral("cover_name");
    case Entity::Negative:
        return QStringLiteral("negative_name");
    default:
        return {};
    }
}

QString sessionLinkFor(Entity entity)
{
    switch (entity) {
    case Entity::Site:
        return QStringLiteral("session_site");
    case Entity::Term:
        return QStringLiteral("session_term");
    default:
        return {};
    }
}

} // namespace

void BenchView::newSession()
{
    if (!mayWrite())
        return;
    const auto& notebook = desk.notebook();
    RecordDialog dialog(services(), Entity::Session, 0, this);
    dialog.suggest(QStringLiteral("session_code"), Known { Value(nextSessionCode(notebook, desk.now())) });
    dialog.suggest(QStringLiteral("session_start"), Known { Value(desk.now()) });
    // The next lesson is mostly at the same place in the same term; it is shown and can be changed.
    if (const auto before = sessionsNewestFirst(notebook); !before.isEmpty())
        for (const auto entity : { Entity::Site, Entity::Term })
            if (const auto link = notebook.get({ Entity::Session, before.first() }, sessionLinkFor(entity)).link())
                dialog.suggest(sessionLinkFor(entity), Known { Value(notebook.nameOf({ entity, *link })) });
    if (dialog.exec() == QDialog::Accepted)
        desk.setSession(SessionId { dialog.id() });
    arrive();
}

void BenchView::newPrints(int count)
{
    if (!mayWrite())
        return;
    if (desk.notebook().table(Entity::Session).find(desk.session().value) < 0) {
        newSession();
        return;
    }
    NewPrintsDialog dialog(services(), desk.session(), count, this);
    if (dialog.exec() == QDialog::Accepted) {
        choose(dialog.prints());
        if (!dialog.prints().isEmpty() && table_->currentIndex().column() == BenchModel::Sheet)
            table_->selectionModel()->setCurrentIndex(
                model_->index(table_->currentIndex().row(), BenchModel::Coat), QItemSelectionModel::NoUpdate);
    }
    arrive();
}

void BenchView::make(Entity entity)
{
    if (!mayWrite())
        return;
    if (const auto made = makeRecord(services(), entity, this))
        offerFor(entity, *made);
    arrive();
}

void BenchView::offerFor(Entity entity, qint64 record)
{
    const auto name = desk.notebook().nameOf({ entity, record });
    const auto title = tr("New %1").arg(entityLabel(entity));
    if (const auto key = printFieldFor(entity); !key.isEmpty()) {
        const auto prints = chosen();
        if (prints.isEmpty())
            return;
        QStringList others;
        for (const auto print : prints)
            if (const auto now = desk.get(print, key).text(); now && *now != name)
                others << model_->code(print) + QLatin1Char(' ') + *now;
        const auto question = tr("Use %1 for %2?").arg(name, whom(prints));
        bool replace = true;
        if (others.isEmpty()) {
            if (dialogs.question(this, title, question, { tr("Use it"), tr("Not now") }) != 0)
                return;
        } else {
            const auto answer = dialogs.question(this, title,
                question + QLatin1Char(' ') + tr("Recorded already: %1.").arg(others.join(QStringLiteral(", "))),
                { tr("Only where none is recorded"), tr("Replace"), tr("Not now") });
            if (!answer || *answer == 2)
                return;
            replace = *answer == 1;
        }
        (void)desk.perform(tr("%1 for %2").arg(name, whom(prints)), [&](store::Writer& writer) -> Outcome {
            for (const auto print : prints)
                if (replace || !desk.get(print, key).has())
                    if (auto done = store::setPrintField(writer, PrintId { print }, key, Known { Value(name) }); !done)
                        return done;
            return Done {};
        });
        return;
    }
    const auto link = sessionLinkFor(entity);
    const auto session = desk.session();
    const auto code = desk.notebook().nameOf(session);
    if (link.isEmpty() || code.isEmpty())
        return;
    const auto before = desk.notebook().get(session, link);
    auto question = tr("Use %1 for the session %2?").arg(name, code);
    QStringList answers { tr("Use it"), tr("Not now") };
    if (before.link()) {
        question
            += QLatin1Char(' ') + tr("%1 is recorded now.").arg(desk.notebook().nameOf({ entity, *before.link() }));
        answers = { tr("Keep what is recorded"), tr("Replace it") };
    }
    if (dialogs.question(this, title, question, answers) == (before.link() ? 1 : 0))
        (void)desk.perform(tr("%1 for the session %2").arg(name, code),
            [&](store::Writer& writer) { return writer.set(session, link, Known { Link { record } }, before); });
}

} // namespace washfast::ui
