#include "ui/prints/station_section.h"

#include "core/quantity/value_text.h"
#include "ui/common/print_form.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {
constexpr int labelWidth = 190;
}

StationSection::StationSection(const Services& services, Station station, QWidget* parent)
    : QWidget(parent)
    , services_(services)
    , station_(station)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 6);
    column->setSpacing(2);
    auto* bar = new QHBoxLayout;
    column->addLayout(bar);
    heading_ = new QLabel(this);
    heading_->setTextFormat(Qt::RichText);
    bar->addWidget(heading_, 1);
    edit_ = new QPushButton(tr("Edit"), this);
    edit_->setCheckable(true);
    edit_->setAccessibleName(tr("Edit %1").arg(stationLabel(station)));
    edit_->setVisible(services.desk.writable());
    bar->addWidget(edit_);
    values_ = new QLabel(this);
    values_->setTextFormat(Qt::RichText);
    values_->setWordWrap(true);
    values_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    values_->setContentsMargins(12, 0, 0, 0);
    column->addWidget(values_);
    connect(edit_, &QPushButton::toggled, this, &StationSection::edit);
}

void StationSection::edit(bool on)
{
    if (on && !form_) {
        form_ = new PrintForm(services_.desk, services_.look.theme(), this);
        form_->setDialogs(services_.dialogs);
        form_->setStation(station_);
        form_->showWhole();
        layout()->addWidget(form_);
        form_->orderAfter(edit_);
    }
    edit_->setText(on ? tr("Done") : tr("Edit"));
    if (!form_)
        return;
    form_->setVisible(on);
    values_->setVisible(!on);
    if (on) {
        form_->setPrints({ print_ });
        form_->focusField();
    } else {
        refresh();
    }
}

QWidget* StationSection::orderAfter(QWidget* before) const
{
    setTabOrder(before, edit_);
    return form_ ? form_->orderAfter(edit_) : edit_;
}

void StationSection::setPrint(qint64 print)
{
    print_ = print;
    if (form_ && edit_->isChecked())
        form_->setPrints({ print });
    refresh();
}

void StationSection::setTheme(const Theme& theme)
{
    if (form_)
        form_->setTheme(theme);
    refresh();
}

QString StationSection::shownText() const
{
    return values_->text();
}

QString StationSection::rowText(const Field& field, const Known& known) const
{
    const auto quiet = services_.look.theme().quiet.name();
    const auto unit = field.unit.isEmpty()
        ? QString()
        : QStringLiteral(" <span style='color:%1'>%2</span>").arg(quiet, field.unit.toHtmlEscaped());
    const auto shown
        = displayText(field, known, QLocale()).toHtmlEscaped().replace(QLatin1Char('\n'), QLatin1String("<br>"));
    return QStringLiteral("<tr><td width='%1' style='color:%2; padding-right:14px'>%3</td><td>%4%5</td></tr>")
        .arg(labelWidth)
        .arg(quiet, field.label.toHtmlEscaped(), shown, unit);
}

QString StationSection::headingText() const
{
    const auto name = QStringLiteral("<b>%1</b>").arg(stationLabel(station_).toHtmlEscaped());
    if (!begins_)
        return name;
    const QLocale locale;
    const auto clock = [&](const Instant& at) { return locale.toString(at.toDateTime().time(), QLocale::ShortFormat); };
    const auto day = [&](const Instant& at) { return locale.toString(at.toDateTime().date(), QLocale::ShortFormat); };
    auto span = day(*begins_) + QLatin1Char(' ') + clock(*begins_);
    if (*ends_ > *begins_)
        span += QStringLiteral(" – ") + (day(*ends_) == day(*begins_) ? QString() : day(*ends_) + QLatin1Char(' '))
            + clock(*ends_);
    return QStringLiteral("%1 &nbsp;<span style='color:%2'>%3</span>")
        .arg(name, services_.look.theme().quiet.name(), span.toHtmlEscaped());
}

void StationSection::refresh()
{
    const auto& desk = services_.desk;
    const auto& fields = desk.catalogue().printFields();
    const int row = desk.notebook().prints().find(print_);
    begins_.reset();
    ends_.reset();
    QString text;
    for (size_t i = 0; row >= 0 && i < fields.size(); ++i) {
        const auto& field = fields[i];
        // The code, the outcome and the notes stand at the head of the page.
        if (field.station != station_ || field.key == QLatin1String("print_code")
            || field.key == QLatin1String("print_notes") || field.key == QLatin1String("print_outcome"))
            continue;
        const auto known = desk.reader().get(row, int(i));
        // Saying each word of the outcome again as yes or no helps nobody.
        if (!known.has() || field.key.startsWith(QLatin1String("is_")))
            continue;
        if (const auto time = known.time(); time && station_ != Station::About) {
            begins_ = begins_ ? std::min(*begins_, *time) : *time;
            ends_ = ends_ ? std::max(*ends_, *time) : *time;
        }
        text += rowText(field, known);
    }
    heading_->setText(headingText());
    values_->setText(text.isEmpty()
            ? QStringLiteral("<span style='color:%1'>%2</span>")
                  .arg(services_.look.theme().quiet.name(), tr("nothing recorded").toHtmlEscaped())
            : QStringLiteral("<table cellspacing='1'>%1</table>").arg(text));
}

} // namespace washfast::ui
