#include "ui/causes/next_page.h"

#include "core/store/print_fields.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <cmath>

namespace washfast::ui {

namespace {

enum Column { Count, What, Settings, Why, columnCount };

QString roleWords(const causes::PlannedPrint& print)
{
    switch (print.role) {
    case causes::PlannedPrint::Role::KnownGood:
        return NextPage::tr("known to go well");
    case causes::PlannedPrint::Role::Unexposed:
        return NextPage::tr("coated, not exposed");
    case causes::PlannedPrint::Role::Trial:
        break;
    }
    return print.split_sheet ? NextPage::tr("trial, half of a sheet") : NextPage::tr("trial");
}

QString settingsWords(const causes::PlannedPrint& print)
{
    QStringList parts;
    for (const auto& setting : print.settings)
        parts << setting.label + QStringLiteral(": ") + setting.spoken;
    return parts.join(QStringLiteral(";  "));
}

Known knownOf(const causes::Setting& setting)
{
    if (const auto* number = std::get_if<double>(&setting.value))
        return Known { *number };
    if (const auto* yes = std::get_if<bool>(&setting.value))
        return Known { *yes };
    return Known { std::get<QString>(setting.value) };
}

} // namespace

QString planNote(const causes::PlannedPrint& print)
{
    QStringList parts { roleWords(print) };
    if (!print.settings.empty())
        parts << settingsWords(print);
    if (!print.why.isEmpty())
        parts << print.why;
    return parts.join(QStringLiteral(". "));
}

NextPage::NextPage(const Services& services, QWidget* parent)
    : QWidget(parent)
    , services_(services)
{
    auto* column = new QVBoxLayout(this);
    about_ = new QLabel(this);
    about_->setWordWrap(true);
    column->addWidget(about_);
    table_ = new QTableWidget(this);
    table_->setAccessibleName(tr("Next prints to make"));
    table_->setColumnCount(columnCount);
    table_->setHorizontalHeaderLabels({ tr("Prints"), tr("What"), tr("With"), tr("What it will tell") });
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    styleTable(*table_);
    table_->setWordWrap(true);
    table_->horizontalHeader()->setStretchLastSection(true);
    table_->verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    column->addWidget(table_, 1);
    auto* row = new QHBoxLayout;
    warnings_ = new QLabel(this);
    warnings_->setWordWrap(true);
    row->addWidget(warnings_, 1);
    send_ = new QPushButton(tr("Send to the &Bench"), this);
    send_->setToolTip(tr("Makes them as prepared rows of the running session; one Ctrl+Z takes them back."));
    row->addWidget(send_, 0, Qt::AlignTop);
    column->addLayout(row);
    connect(send_, &QPushButton::clicked, this, &NextPage::send);
    setPlan({});
}

QString NextPage::sentence() const
{
    return about_->text();
}

void NextPage::setPlan(const causes::NextPrints& plan)
{
    plan_ = plan;
    int prints = 0;
    for (const auto& one : plan.prints)
        prints += one.count;
    send_->setEnabled(prints > 0 && services_.desk.writable());
    table_->setRowCount(int(plan.prints.size()));
    for (int row = 0; row < int(plan.prints.size()); ++row) {
        const auto& one = plan.prints[size_t(row)];
        const QString texts[columnCount] = { QString::number(one.count), roleWords(one), settingsWords(one), one.why };
        for (int column = 0; column < columnCount; ++column) {
            auto* item = new QTableWidgetItem(texts[column]);
            item->setToolTip(texts[column]);
            table_->setItem(row, column, item);
        }
    }
    if (prints == 0) {
        about_->setText(tr("No further prints are proposed for this question."));
    } else {
        QString text;
        switch (plan.purpose) {
        case causes::Purpose::Untangle:
            text = tr("%n print(s) that would tell apart what moved together", nullptr, prints);
            break;
        case causes::Purpose::Decide:
            text = tr("%n print(s) that would decide it", nullptr, prints);
            break;
        case causes::Purpose::Map:
            text = tr("%n print(s) to find out what matters at all", nullptr, prints);
            break;
        }
        text += tr(", controls among them.");
        if (plan.chance)
            text += QLatin1Char(' ')
                + tr("If it is as these prints suggest, the chance that they settle it is %1 in 100.")
                      .arg(std::lround(*plan.chance * 100));
        if (plan.prints_needed_for_power_80)
            text += QLatin1Char(' ')
                + tr("For 80 in 100 it takes %n trial(s).", nullptr, *plan.prints_needed_for_power_80);
        about_->setText(text);
    }
    table_->resizeColumnToContents(Count);
    table_->resizeColumnToContents(What);
    table_->setColumnWidth(Settings, qMax(220, width() / 3));
    QStringList notes;
    for (const auto& warning : plan.warnings)
        notes << QStringLiteral("! ") + warning;
    warnings_->setText(notes.join(QLatin1Char('\n')));
}

int NextPage::send()
{
    auto& desk = services_.desk;
    const auto session = desk.session();
    if (!session.valid()) {
        services_.dialogs.message(this, tr("No session is running"),
            tr("Make or choose the session in the Bench first; the prints go there."));
        return 0;
    }
    // Codes that nobody has: T-01, T-02 ... for trials.
    int number = 1;
    const auto nextCode = [&] {
        for (;; ++number) {
            const auto code = QStringLiteral("T-%1").arg(number, 2, 10, QLatin1Char('0'));
            if (!desk.notebook().byName(Entity::Print, code)) {
                ++number;
                return code;
            }
        }
    };
    int made = 0;
    int sheet = 1;
    QStringList cannot;
    const bool done = desk.perform(tr("Prints to find out why"), [&](store::Writer& writer) -> Outcome {
        made = 0;
        int halves = 0;
        for (const auto& one : plan_.prints)
            for (int i = 0; i < one.count; ++i) {
                std::vector<store::FieldValue> values {
                    { QStringLiteral("print_code"), Known { nextCode() } },
                    { QStringLiteral("print_session"), Known { Value(Link(session.value)) } },
                    { QStringLiteral("print_notes"), Known { planNote(one) } },
                };
                if (one.role == causes::PlannedPrint::Role::Unexposed)
                    values.emplace_back(QStringLiteral("print_method"), Known { QStringLiteral("control") });
                if (one.split_sheet) {
                    values.emplace_back(QStringLiteral("print_sheet"), Known { QStringLiteral("T%1").arg(sheet) });
                    values.emplace_back(QStringLiteral("print_half"),
                        Known { halves % 2 == 0 ? QStringLiteral("first_half") : QStringLiteral("second_half") });
                    if (++halves % 2 == 0)
                        ++sheet;
                }
                const auto print = writer.add(Entity::Print, 0, values);
                if (!print)
                    return print.error();
                for (const auto& setting : one.settings) {
                    const auto* field = desk.catalogue().findPrintField(setting.factor);
                    // A setting is a plan: only what is chosen beforehand is written, as an assumption until it is
                    // done.
                    if (!field || field->derived() || field->kind == Kind::Time)
                        continue;
                    auto known = knownOf(setting);
                    known.evidence = Evidence::Assumed;
                    if (const auto set = store::setPrintField(writer, PrintId { *print }, setting.factor, known); !set)
                        cannot << setting.label;
                }
                ++made;
            }
        return Done {};
    });
    if (!done)
        return 0;
    auto sentence = tr("%n print(s) stand prepared on the Bench", nullptr, made);
    sentence
        += cannot.isEmpty() ? QStringLiteral(".") : tr("; set by hand: %1.").arg(cannot.join(QStringLiteral(", ")));
    Q_EMIT say(sentence);
    Q_EMIT sent();
    return made;
}

} // namespace washfast::ui
