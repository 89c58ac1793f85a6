#include "ui/common/desk.h"

#include "core/store/print_fields.h"

#include <QSet>
#include <QtConcurrent>

namespace washfast::ui {

namespace {

/// Up to this many prints the whole notebook is read at once: a few tens of milliseconds.
constexpr qint64 smallNotebook = 5000;
constexpr int pollMs = 500;
/// Of a large notebook these are worked out in the background too: what plots, sums and the first filters ask for. A
/// person who types the first letter of a filter should not wait for the words of 100,000 prints.
constexpr const char* columnsAskedFirst[]
    = { "failed", "dose_j_cm2", "moisture_at_expose_pct", "moisture_at_rinse_pct", "formed", "kept", "net_density" };

void workOutAhead(const PrintColumns& columns)
{
    (void)columns.words();
    for (const char* key : columnsAskedFirst)
        if (const int field = columns.notebook().catalogue().printField(QString::fromLatin1(key)); field >= 0)
            (void)columns.column(field);
}

Entity ownerEntity(Entity entity)
{
    const auto owner = ownerOf(entity);
    return owner ? owner->entity : entity;
}

} // namespace

std::optional<QVector<qint64>> printsTouched(const QVector<store::Change>& changes)
{
    QVector<qint64> prints;
    QSet<qint64> seen; // an import may touch thousands
    for (const auto& change : changes) {
        qint64 print = 0;
        if (change.row.entity == Entity::Print)
            print = change.row.id;
        else if (ownerEntity(change.row.entity) == Entity::Print)
            print = change.owner;
        else
            return std::nullopt;
        if (seen.contains(print))
            continue;
        seen.insert(print);
        prints << print;
    }
    return prints;
}

Desk::Desk(std::unique_ptr<store::NotebookFile> file, const Clock& clock, QObject* parent)
    : QObject(parent)
    , file_(std::move(file))
    , clock_(clock)
{
    notebook_ = std::make_unique<Notebook>(file_->catalogue());
    columns_ = std::make_unique<PrintColumns>(*notebook_);
    if (const auto latest = file_->latestSession(); latest && *latest)
        session_ = **latest;
    readFirst();
    connect(&rest_, &QFutureWatcherBase::finished, this, &Desk::takeRest);
    connect(&poll_, &QTimer::timeout, this, &Desk::lookForChanges);
    poll_.start(pollMs);
}

Desk::~Desk()
{
    rest_.waitForFinished();
}

Instant Desk::now() const
{
    return Instant::from(clock_.now().toLocalTime());
}

void Desk::readFirst()
{
    const auto prints = file_->printCount();
    const bool small = !prints || *prints <= smallNotebook;
    auto read = small ? file_->read() : file_->read(session_.valid() ? session_ : SessionId { -1 });
    if (!read) {
        // The signal has no listener yet: tell it once the window is up.
        QTimer::singleShot(0, this, [this, error = read.error()] { Q_EMIT trouble(error); });
        return;
    }
    auto whole = wholeOf(std::move(*read));
    columns_ = std::move(whole.columns); // before the notebook that the old ones read
    notebook_ = std::move(whole.notebook);
    if (small)
        return;
    rest_wanted_ = true;
    // Begins when the window has been built: until then it would only take the processor from it.
    QTimer::singleShot(0, this, &Desk::readRest);
}

void Desk::readRest()
{
    if (!rest_wanted_ || rest_begun_)
        return;
    rest_begun_ = true;
    rest_.setFuture(QtConcurrent::run([path = file_->path(), &catalogue = file_->catalogue()] {
        store::OpenOptions options;
        options.create = false;
        options.only_read = true;
        options.look = store::LookFirst::None;
        options.name_copy = false;
        auto file = store::NotebookFile::open(path, catalogue, options);
        if (!file)
            return std::make_shared<Result<Whole>>(file.error());
        auto read = (*file)->read();
        if (!read)
            return std::make_shared<Result<Whole>>(read.error());
        auto whole = wholeOf(std::move(*read));
        workOutAhead(*whole.columns);
        return std::make_shared<Result<Whole>>(std::move(whole));
    }));
}

Desk::Whole Desk::wholeOf(Notebook notebook)
{
    Whole whole;
    whole.notebook = std::make_unique<Notebook>(std::move(notebook));
    whole.columns = std::make_unique<PrintColumns>(*whole.notebook);
    return whole;
}

void Desk::take(Whole whole)
{
    columns_ = std::move(whole.columns); // before the notebook that the old ones read
    notebook_ = std::move(whole.notebook);
    const auto before = notebook_->prints().rows();
    if (const auto news = file_->refresh(*notebook_); news)
        workIn({ news->begin(), news->end() }, before);
    else
        Q_EMIT trouble(news.error());
    Q_EMIT reloaded();
}

void Desk::takeRest()
{
    if (!rest_wanted_ || !rest_begun_)
        return; // waitUntilComplete() was quicker, or it was read from a file that has been opened anew since
    rest_wanted_ = false;
    const auto read = rest_.result();
    if (*read)
        take(std::move(**read));
    else
        Q_EMIT trouble(read->error());
}

void Desk::waitUntilComplete()
{
    if (!rest_wanted_)
        return;
    readRest();
    rest_.waitForFinished();
    takeRest();
}

void Desk::setSession(SessionId session)
{
    if (session == session_)
        return;
    session_ = session;
    if (!complete()) {
        if (auto read = file_->read(session); read)
            take(wholeOf(std::move(*read)));
        else
            Q_EMIT trouble(read.error());
    }
    Q_EMIT sessionChanged();
}

QVector<qint64> Desk::printsOf(SessionId session) const
{
    QVector<qint64> prints;
    const auto& table = notebook_->prints();
    const int column = catalogue().column(Entity::Print, u"print_session");
    for (int row = 0; row < table.rows(); ++row)
        if (table.link(row, column) == session.value)
            prints << table.id(row);
    return prints;
}

Known Desk::get(qint64 print, QStringView key) const
{
    return reader().get(notebook_->prints().find(print), key);
}

void Desk::foundDamaged(const Error& how)
{
    file_->foundDamaged(how);
    Q_EMIT accessChanged();
}

bool Desk::perform(const QString& label, const std::function<Outcome(store::Writer&)>& work)
{
    return performInRun(0, label, work).has_value();
}

std::optional<qint64> Desk::performInRun(
    qint64 first, const QString& label, const std::function<Outcome(store::Writer&)>& work)
{
    const bool was_writable = writable();
    const auto done = file_->perform(label, work, first);
    takeNews();
    if (writable() != was_writable)
        Q_EMIT accessChanged();
    if (!done) {
        Q_EMIT trouble(done.error());
        return std::nullopt;
    }
    return *done;
}

void Desk::setOpenRun(qint64 first, std::map<qint64, QString> labels)
{
    file_->setOpenRun(first);
    open_run_ = std::move(labels);
}

bool Desk::isDone(qint64 step)
{
    const auto done = file_->isDone(step);
    return done && *done;
}

bool Desk::setPrintField(
    const QVector<qint64>& prints, const QString& key, const Known& value, const std::optional<Known>& expected)
{
    const auto* field = catalogue().findPrintField(key);
    const auto label = tr("%1, %n print(s)", nullptr, int(prints.size())).arg(field ? field->label : key);
    return perform(label, [&](store::Writer& writer) -> Outcome {
        for (const auto print : prints)
            if (auto done = store::setPrintField(
                    writer, PrintId { print }, key, value, false, prints.size() == 1 ? expected : std::nullopt);
                !done)
                return done;
        return Done {};
    });
}

bool Desk::undo()
{
    const auto done = file_->undo();
    takeNews();
    if (!done && done.error().code != Trouble::NotFound)
        Q_EMIT trouble(done.error());
    return done.ok();
}

bool Desk::redo()
{
    const auto done = file_->redo();
    takeNews();
    if (!done && done.error().code != Trouble::NotFound)
        Q_EMIT trouble(done.error());
    return done.ok();
}

QString Desk::labelOf(const Result<std::optional<store::StepInfo>>& next) const
{
    if (!next || !*next)
        return {};
    const auto alone = open_run_.find((*next)->id);
    return alone == open_run_.end() ? (*next)->label : alone->second;
}

QString Desk::undoLabel()
{
    return labelOf(file_->nextUndo());
}

QString Desk::redoLabel()
{
    return labelOf(file_->nextRedo());
}

void Desk::lookForChanges()
{
    file_->lookAfter();
    if (file_->openings() != opening_ || file_->changedElsewhere())
        takeNews();
    tellStanding();
}

void Desk::tellStanding()
{
    if (file_->loss().has_value() == lost_)
        return;
    lost_ = file_->loss().has_value();
    Q_EMIT standingChanged();
}

void Desk::readAnew()
{
    opening_ = file_->openings();
    rest_.waitForFinished();
    rest_wanted_ = rest_begun_ = false;
    readFirst();
    Q_EMIT reloaded();
    if (session_.valid() && notebook_->table(Entity::Session).find(session_.value) < 0) {
        const auto latest = file_->latestSession();
        setSession(latest && *latest ? **latest : SessionId {});
    }
}

void Desk::takeNews()
{
    tellStanding();
    if (file_->openings() != opening_) {
        readAnew();
        return;
    }
    const auto before = notebook_->prints().rows();
    const auto news = file_->refresh(*notebook_);
    if (!news) {
        Q_EMIT trouble(news.error());
        return;
    }
    if (news->empty())
        return;
    const QVector<store::Change> changes(news->begin(), news->end());
    workIn(changes, before);
    Q_EMIT changed(changes);
    leaveRemovedSession(changes);
}

void Desk::leaveRemovedSession(const QVector<store::Change>& changes)
{
    for (const auto& change : changes)
        if (change.what == store::Change::What::Removed && change.row == Ref(session_)) {
            const auto latest = file_->latestSession();
            setSession(latest && *latest ? **latest : SessionId {});
            return;
        }
}

void Desk::workIn(const QVector<store::Change>& changes, int prints_before)
{
    if (changes.isEmpty())
        return;
    const auto touched = printsTouched(changes);
    // What many prints share may concern all of them, and what is taken out or comes back between others moves rows.
    bool all = !touched;
    for (const auto& change : changes) {
        if (change.row.entity != Entity::Print || change.what == store::Change::What::Set)
            continue;
        all = all || change.what == store::Change::What::Removed
            || notebook_->prints().find(change.row.id) < prints_before;
    }
    if (all) {
        columns_->forget();
        return;
    }
    std::vector<int> rows;
    for (const auto print : *touched)
        if (const int row = notebook_->prints().find(print); row >= 0)
            rows.push_back(row);
    columns_->refresh(rows);
}

} // namespace washfast::ui
