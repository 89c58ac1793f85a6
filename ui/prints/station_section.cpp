#include "ui/prints/station_section.h"

#include "core/quantity/value_text.h"
#include "ui/common/print_form.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {
constexpr int formHeight = 340;
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
        form_->setStation(station_);
        form_->setMinimumHeight(formHeight);
        layout()->addWidget(form_);
    }
    edit_->setText(on ? tr("Done") : tr("Edit"));
    if (!form_)
        return;
    form_->setVisible(on);
    if (on) {
        form_->setPrints({ print_ });
        form_->focusField();
    }
    values_->setVisible(!on);
}

void StationSection::setPrint(qint64 print)
{
    print_ = print;
    if (form_ && form_->isVisible())
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

void StationSection::refresh()
{
    const auto& desk = services_.desk;
    const auto& theme = services_.look.theme();
    const auto& fields = desk.catalogue().printFields();
    const int row = desk.notebook().prints().find(print_);
    begins_.reset();
    std::optional<Instant> ends;
    QString text;
    for (size_t i = 0; row >= 0 && i < fields.size(); ++i) {
        const auto& field = fields[i];
        if (field.station != station_ || field.key == QLatin1String("print_code"))
            continue;
        const auto known = desk.reader().get(row, int(i));
        // The outcome stands above as a set; saying each of its words again as yes or no helps nobody.
        if (!known.has() || field.key.startsWith(QLatin1String("is_")))
            continue;
        if (const auto time = known.time(); time && station_ != Station::About) {
            begins_ = begins_ ? std::min(*begins_, *time) : *time;
            ends = ends ? std::max(*ends, *time) : *time;
        }
        const auto unit = field.unit.isEmpty() ? QString() : QStringLiteral(" <span style='color:%1'>%2</span>").arg(theme.quiet.name(), field.unit.toHtmlEscaped());
        text += QStringLiteral("<tr><td style='color:%1; padding-right:14px'>%2</td><td>%3%4</td></tr>")
                    .arg(theme.quiet.name(), field.label.toHtmlEscaped(), displayText(field, known, QLocale()).toHtmlEscaped(), unit);
    }
    QString heading = QStringLiteral("<b>%1</b>").arg(stationLabel(station_));
    if (begins_) {
        const auto clock = [](const Instant& at) { return QLocale().toString(at.toDateTime().time(), QLocale::ShortFormat); };
        heading += QStringLiteral(" &nbsp;<span style='color:%1'>%2 %3%4</span>")
                       .arg(theme.quiet.name(), QLocale().toString(begins_->toDateTime().date(), QLocale::ShortFormat), clock(*begins_),
                           ends && *ends > *begins_ ? QStringLiteral(" – ") + clock(*ends) : QString());
    }
    heading_->setText(heading);
    values_->setText(text.isEmpty() ? QStringLiteral("<span style='color:%1'>%2</span>").arg(theme.quiet.name(), tr("nothing recorded"))
                                    : QStringLiteral("<table cellspacing='1'>%1</table>").arg(text));
}

} // namespace washfast::ui
