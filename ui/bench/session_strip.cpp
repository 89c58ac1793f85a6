#include "ui/bench/session_strip.h"

#include "ui/bench/session_list.h"
#include "ui/common/field_editor.h"
#include "ui/common/print_form.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QVBoxLayout>
#include <algorithm>

namespace washfast::ui {

namespace {
constexpr const char* airColumns[] = { "room_temperature_c", "room_humidity_pct" };
}

SessionStrip::SessionStrip(Desk& desk, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , desk_(desk)
    , list_(new SessionList(desk, this))
    , sessions_(new QComboBox(this))
    , fresh_(new QPushButton(tr("Ne&w session..."), this))
    , counts_(new QLabel(this))
    , air_box_(new QWidget(this))
{
    sessions_->setModel(list_);
    sessions_->setAccessibleName(tr("Session"));
    sessions_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    sessions_->setMinimumContentsLength(22);
    fresh_->setEnabled(desk.writable());
    fresh_->setFocusPolicy(Qt::TabFocus);

    auto* air = new QHBoxLayout(air_box_);
    air->setContentsMargins(0, 0, 0, 0);
    auto* room = new QLabel(tr("Room a&ir"), air_box_);
    air->addWidget(room);
    for (const char* column : airColumns) {
        const auto key = QString::fromLatin1(column);
        auto* editor
            = new FieldEditor(desk.catalogue().columnField(Entity::Session, key), contextFor(desk), theme, air_box_);
        editor->setReadOnly(!desk.writable());
        editor->input()->setMaximumWidth(64);
        connect(editor, &FieldEditor::entered, this, [this, editor, key](const Known& entered) {
            const auto session = desk_.session();
            const auto expected = editor->shown();
            if (!desk_.perform(tr("%1, %2").arg(editor->field().label, desk_.notebook().nameOf(session)),
                    [&](store::Writer& writer) { return writer.set(session, key, entered, expected); }))
                refresh();
        });
        air->addWidget(editor);
        air_.push_back(editor);
    }
    room->setBuddy(air_.front()->input());

    auto* label = new QLabel(tr("S&ession"), this);
    label->setBuddy(sessions_);
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    row->addWidget(label);
    row->addWidget(sessions_);
    row->addWidget(fresh_);
    row->addSpacing(16);
    row->addWidget(air_box_);
    row->addStretch(1);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(4, 4, 4, 4);
    column->setSpacing(6);
    column->addLayout(row);
    counts_->setTextFormat(Qt::PlainText);
    counts_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    column->addWidget(counts_);

    connect(fresh_, &QPushButton::clicked, this, &SessionStrip::newSessionWanted);
    connect(sessions_, &QComboBox::activated, this,
        [this](int index) { desk_.setSession(SessionId { sessions_->itemData(index).toLongLong() }); });
    connect(&desk, &Desk::changed, this, [this](const QVector<store::Change>& changes) {
        const auto aboutSessions = [](const store::Change& change) { return change.row.entity == Entity::Session; };
        if (std::any_of(changes.begin(), changes.end(), aboutSessions))
            refresh();
    });
    connect(&desk, &Desk::reloaded, this, &SessionStrip::refresh);
    connect(&desk, &Desk::sessionChanged, this, &SessionStrip::refresh);
    setTheme(theme);
    refresh();
}

void SessionStrip::refresh()
{
    const auto& notebook = desk_.notebook();
    const QSignalBlocker quiet(sessions_);
    list_->readAgain();
    const int at = list_->rowOf(desk_.session().value);
    sessions_->setCurrentIndex(at);
    sessions_->setEnabled(list_->rowCount() > 0);
    air_box_->setEnabled(at >= 0);
    for (auto* editor : air_)
        editor->show(notebook.get(desk_.session(), editor->field().key));
}

void SessionStrip::setCounts(const BenchCounts& counts)
{
    counts_->setText(counts.all > 0 ? countsText(counts) : QString());
    counts_->setVisible(counts.all > 0);
}

FieldEditor* SessionStrip::air(const QString& column) const
{
    for (auto* editor : air_)
        if (editor->field().key == column)
            return editor;
    return nullptr;
}

QString SessionStrip::countsShown() const
{
    return counts_->text();
}

void SessionStrip::setTheme(const Theme& theme)
{
    auto colours = palette();
    colours.setColor(QPalette::WindowText, theme.quiet);
    counts_->setPalette(colours);
    for (auto* editor : air_)
        editor->setTheme(theme);
}

} // namespace washfast::ui
