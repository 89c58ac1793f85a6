#include "ui/common/empty_state.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

namespace washfast::ui {

EmptyState::EmptyState(const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , title_(new QLabel(this))
    , sentence_(new QLabel(this))
    , button_(new QPushButton(this))
{
    title_->setTextFormat(Qt::PlainText);
    title_->setAlignment(Qt::AlignHCenter);
    title_->setFont(textFont(font(), TextSize::Title));
    sentence_->setTextFormat(Qt::PlainText);
    sentence_->setAlignment(Qt::AlignHCenter);
    sentence_->setWordWrap(true);
    // About sixty letters a line read best; a narrower view makes it wrap sooner.
    sentence_->setMaximumWidth(fontMetrics().averageCharWidth() * 60);
    button_->setMinimumHeight(comfortableRowHeight(fontMetrics()));
    button_->hide();
    connect(button_, &QPushButton::clicked, this, &EmptyState::actionTriggered);

    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(24, 24, 24, 24);
    layout->setSpacing(12);
    layout->addStretch(2);
    layout->addWidget(title_);
    auto* middle = new QHBoxLayout;
    middle->addStretch(1);
    middle->addWidget(sentence_, 100);
    middle->addStretch(1);
    layout->addLayout(middle);
    layout->addSpacing(8);
    layout->addWidget(button_, 0, Qt::AlignHCenter);
    layout->addStretch(3);
    setTheme(theme);
}

void EmptyState::setContent(const QString& title, const QString& sentence, const QString& action)
{
    title_->setText(title);
    sentence_->setText(sentence);
    button_->setText(action);
    button_->setMinimumWidth(button_->fontMetrics().horizontalAdvance(action) + 40);
    button_->setVisible(!action.isEmpty());
    button_->setAccessibleName(action);
    button_->setAccessibleDescription(sentence);
    setAccessibleName(title);
    setAccessibleDescription(sentence);
    setFocusProxy(action.isEmpty() ? nullptr : button_);
}

QString EmptyState::title() const
{
    return title_->text();
}

QString EmptyState::sentence() const
{
    return sentence_->text();
}

void EmptyState::setTheme(const Theme& theme)
{
    QPalette quiet = sentence_->palette();
    quiet.setColor(QPalette::WindowText, theme.quiet);
    sentence_->setPalette(quiet);
    QPalette strong = title_->palette();
    strong.setColor(QPalette::WindowText, theme.ink);
    title_->setPalette(strong);
}

} // namespace washfast::ui
