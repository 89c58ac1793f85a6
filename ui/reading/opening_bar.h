// Opens photos one after the other beside the window: how far it is, and a button that stops it. Hidden while idle.
#pragma once

#include "ui/reading/marked_photo.h"

#include <QFutureWatcher>
#include <QWidget>
#include <atomic>
#include <deque>

class QProgressBar;
class QPushButton;

namespace washfast::ui {

class OpeningBar : public QWidget {
    Q_OBJECT

public:
    explicit OpeningBar(QWidget* parent = nullptr);
    ~OpeningBar() override;

    /// Of a file when `path` is not empty, else of what the notebook stores. `into` must live until it is opened.
    void add(MarkedPhoto* into, const QString& path, const QByteArray& bytes);
    [[nodiscard]] bool working() const { return opening_ || !waiting_.empty(); }

Q_SIGNALS:
    /// Its pixels are there, or its trouble.
    void opened(washfast::ui::MarkedPhoto* photo);

private:
    struct Waiting {
        MarkedPhoto* into = nullptr;
        QString path;
        QByteArray bytes;
    };

    void openNext();
    void takeOpened();
    void stop();

    std::deque<Waiting> waiting_;
    MarkedPhoto* opening_ = nullptr;
    std::atomic<bool> cancel_ = false;
    QFutureWatcher<std::shared_ptr<Result<density::Photo>>> open_;
    QProgressBar* progress_ = nullptr;
    QPushButton* stop_ = nullptr;
};

} // namespace washfast::ui
