#include "compression.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <new>
#include <stdexcept>
#include <string>

#ifdef KEYSQUARE_HAS_ZLIB
#include <zlib.h>
#endif
#ifdef KEYSQUARE_HAS_BZIP2
#include <bzlib.h>
#endif
#ifdef KEYSQUARE_HAS_ZSTD
#include <zstd.h>
#include <zstd_errors.h>
#endif

namespace keysquare {

namespace {

using namespace std::string_view_literals;

constexpr std::string_view gzip_magic = "\x1F\x8B"sv;         // RFC 1952, 2.3.1
constexpr std::string_view bzip2_magic = "BZh"sv;             // the library's documentation has no more; from memory
constexpr std::string_view zstd_magic = "\x28\xB5\x2F\xFD"sv; // RFC 8878, 3.1.1

/// The libraries of old count bytes in an `unsigned`.
[[nodiscard]] [[maybe_unused]] constexpr unsigned in_range(std::size_t size) noexcept {
    return static_cast<unsigned>((std::min)(size, std::size_t{1} << 30U));
}

#ifdef KEYSQUARE_HAS_ZLIB

constexpr int gzip_format = 15 + 16; // the largest window, and the header and trailer of gzip (zlib.h)

class GzipTransform : public ByteTransform {
  protected:
    /// What one call did to the stream's buffers; `code` is what it returned.
    template <class Call> Progress run(std::string_view in, std::span<char> out, const Call& call) {
        const unsigned in_size = in_range(in.size());
        const unsigned out_size = in_range(out.size());
        // zlib does not write to its input; its interface is older than const
        stream_.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(in.data())); // NOLINT(*-const-cast)
        stream_.avail_in = in_size;
        stream_.next_out = reinterpret_cast<Bytef*>(out.data());
        stream_.avail_out = out_size;
        const int code = call();
        if (code == Z_MEM_ERROR) throw std::bad_alloc{};
        const bool is_sound = code == Z_OK || code == Z_STREAM_END || code == Z_BUF_ERROR;
        return {in_size - stream_.avail_in, out_size - stream_.avail_out, code == Z_STREAM_END,
                is_sound ? Reason::none : Reason::bad_compression};
    }

    z_stream stream_{};
};

class GzipUnpacking final : public GzipTransform {
  public:
    GzipUnpacking() {
        if (inflateInit2(&stream_, gzip_format) != Z_OK) throw std::bad_alloc{};
    }
    GzipUnpacking(const GzipUnpacking&) = delete;
    GzipUnpacking& operator=(const GzipUnpacking&) = delete;
    ~GzipUnpacking() override { inflateEnd(&stream_); }

    Progress go_on(std::string_view in, std::span<char> out, bool) override {
        return run(in, out, [this] { return inflate(&stream_, Z_NO_FLUSH); });
    }
    void begin_member() override { inflateReset(&stream_); }
};

class GzipPacking final : public GzipTransform {
  public:
    GzipPacking() {
        constexpr int usual_memory = 8;
        if (deflateInit2(&stream_, Z_DEFAULT_COMPRESSION, Z_DEFLATED, gzip_format, usual_memory, Z_DEFAULT_STRATEGY) !=
            Z_OK)
            throw std::bad_alloc{};
    }
    GzipPacking(const GzipPacking&) = delete;
    GzipPacking& operator=(const GzipPacking&) = delete;
    ~GzipPacking() override { deflateEnd(&stream_); }

    Progress go_on(std::string_view in, std::span<char> out, bool last) override {
        return run(in, out, [&] { return deflate(&stream_, last ? Z_FINISH : Z_NO_FLUSH); });
    }
    void begin_member() override {}
};

#endif

#ifdef KEYSQUARE_HAS_BZIP2

class Bzip2Transform : public ByteTransform {
  protected:
    template <class Call> Progress run(std::string_view in, std::span<char> out, const Call& call) {
        const unsigned in_size = in_range(in.size());
        const unsigned out_size = in_range(out.size());
        stream_.next_in = const_cast<char*>(in.data()); // NOLINT(*-const-cast): as with zlib
        stream_.avail_in = in_size;
        stream_.next_out = out.data();
        stream_.avail_out = out_size;
        const int code = call();
        if (code == BZ_MEM_ERROR) throw std::bad_alloc{};
        return {in_size - stream_.avail_in, out_size - stream_.avail_out, code == BZ_STREAM_END,
                code < 0 ? Reason::bad_compression : Reason::none};
    }

    bz_stream stream_{};
};

class Bzip2Unpacking final : public Bzip2Transform {
  public:
    Bzip2Unpacking() { begin(); }
    Bzip2Unpacking(const Bzip2Unpacking&) = delete;
    Bzip2Unpacking& operator=(const Bzip2Unpacking&) = delete;
    ~Bzip2Unpacking() override { BZ2_bzDecompressEnd(&stream_); }

    Progress go_on(std::string_view in, std::span<char> out, bool) override {
        return run(in, out, [this] { return BZ2_bzDecompress(&stream_); });
    }
    void begin_member() override {
        BZ2_bzDecompressEnd(&stream_);
        begin();
    }

  private:
    void begin() {
        stream_ = {};
        if (BZ2_bzDecompressInit(&stream_, 0, 0) != BZ_OK) throw std::bad_alloc{};
    }
};

class Bzip2Packing final : public Bzip2Transform {
  public:
    Bzip2Packing() {
        constexpr int largest_blocks = 9;
        if (BZ2_bzCompressInit(&stream_, largest_blocks, 0, 0) != BZ_OK) throw std::bad_alloc{};
    }
    Bzip2Packing(const Bzip2Packing&) = delete;
    Bzip2Packing& operator=(const Bzip2Packing&) = delete;
    ~Bzip2Packing() override { BZ2_bzCompressEnd(&stream_); }

    Progress go_on(std::string_view in, std::span<char> out, bool last) override {
        if (in.empty() && !last) return {}; // which bzip2 takes for an error
        return run(in, out, [&] { return BZ2_bzCompress(&stream_, last ? BZ_FINISH : BZ_RUN); });
    }
    void begin_member() override {}
};

#endif

#ifdef KEYSQUARE_HAS_ZSTD

/// Why a call of zstd that returned this could not be done.
Reason fault_of(std::size_t code) {
    if (!ZSTD_isError(code)) return Reason::none;
    switch (ZSTD_getErrorCode(code)) {
    case ZSTD_error_memory_allocation: throw std::bad_alloc{};
    case ZSTD_error_frameParameter_windowTooLarge: return Reason::window_too_large;
    default: return Reason::bad_compression;
    }
}

/// What a call of zstd returned that depends on no data from outside.
std::size_t done(std::size_t code) {
    if (fault_of(code) != Reason::none) throw std::logic_error{ZSTD_getErrorName(code)};
    return code;
}

struct FreeZstd {
    void operator()(ZSTD_DCtx* context) const noexcept { ZSTD_freeDCtx(context); }
    void operator()(ZSTD_CCtx* context) const noexcept { ZSTD_freeCCtx(context); }
};

class ZstdUnpacking final : public ByteTransform {
  public:
    ZstdUnpacking() : context_(ZSTD_createDCtx()) {
        constexpr int largest_window = 27; // 128 MiB, what the tool zstd allows without being asked for more
        if (!context_) throw std::bad_alloc{};
        done(ZSTD_DCtx_setParameter(context_.get(), ZSTD_d_windowLogMax, largest_window));
    }

    Progress go_on(std::string_view in, std::span<char> out, bool) override {
        // A call that fails does not tell what it put out before, so each gets no more than one block, as zstd asks.
        ZSTD_inBuffer from{in.data(), (std::min)(in.size(), wanted_), 0};
        ZSTD_outBuffer to{out.data(), out.size(), 0};
        const std::size_t left = ZSTD_decompressStream(context_.get(), &to, &from);
        const Reason fault = fault_of(left);
        if (fault == Reason::none) wanted_ = left > 0 ? left : first_wanted;
        return {from.pos, to.pos, left == 0, fault};
    }
    void begin_member() override { done(ZSTD_DCtx_reset(context_.get(), ZSTD_reset_session_only)); }

  private:
    static constexpr std::size_t first_wanted = 5; // RFC 8878, 3.1.1: magic number and descriptor of a frame
    std::size_t wanted_ = first_wanted;
    std::unique_ptr<ZSTD_DCtx, FreeZstd> context_;
};

class ZstdPacking final : public ByteTransform {
  public:
    ZstdPacking() : context_(ZSTD_createCCtx()) {
        if (!context_) throw std::bad_alloc{};
        done(ZSTD_CCtx_setParameter(context_.get(), ZSTD_c_checksumFlag, 1));
    }

    Progress go_on(std::string_view in, std::span<char> out, bool last) override {
        ZSTD_inBuffer from{in.data(), in.size(), 0};
        ZSTD_outBuffer to{out.data(), out.size(), 0};
        const std::size_t left =
            done(ZSTD_compressStream2(context_.get(), &to, &from, last ? ZSTD_e_end : ZSTD_e_continue));
        return {from.pos, to.pos, last && left == 0};
    }
    void begin_member() override {}

  private:
    std::unique_ptr<ZSTD_CCtx, FreeZstd> context_;
};

#endif

} // namespace

Compression compression_told_by(std::string_view first_bytes) noexcept {
    const auto next = [&](std::size_t at, std::string_view wanted) {
        return wanted.starts_with(first_bytes.substr(at));
    };
    if (first_bytes.starts_with(gzip_magic)) return Compression::gzip;
    if (first_bytes.starts_with(zstd_magic)) return Compression::zstd;
    // the size of the blocks, then what a first block begins with, or the end of an empty file (pi, and its root)
    if (first_bytes.starts_with(bzip2_magic) && first_bytes.size() > 3 && first_bytes[3] >= '1' &&
        first_bytes[3] <= '9') {
        first_bytes = first_bytes.substr(0, magic_size);
        if (next(4, "\x31\x41\x59\x26\x53\x59"sv) || next(4, "\x17\x72\x45\x38\x50\x90"sv)) return Compression::bzip2;
    }
    const bool is_skippable = first_bytes.size() >= 4 &&
                              (static_cast<unsigned char>(first_bytes[0]) & 0xF0U) == 0x50U &&
                              first_bytes.substr(1, 3) == "\x2A\x4D\x18"sv; // RFC 8878, 3.1.2
    return is_skippable ? Compression::zstd : Compression::none;
}

bool can_begin(Compression format, std::string_view first_bytes) noexcept {
    const std::string_view magic = format == Compression::gzip    ? gzip_magic
                                   : format == Compression::bzip2 ? bzip2_magic
                                                                  : zstd_magic;
    return magic.starts_with(first_bytes);
}

Compression compression_promised_by(const std::filesystem::path& path) {
    std::string suffix = path.extension().string();
    for (char& c : suffix)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (suffix == ".gz") return Compression::gzip;
    if (suffix == ".bz2") return Compression::bzip2;
    if (suffix == ".zst") return Compression::zstd;
    return Compression::none;
}

std::unique_ptr<ByteTransform> unpacking([[maybe_unused]] Compression format) {
#ifdef KEYSQUARE_HAS_ZLIB
    if (format == Compression::gzip) return std::make_unique<GzipUnpacking>();
#endif
#ifdef KEYSQUARE_HAS_BZIP2
    if (format == Compression::bzip2) return std::make_unique<Bzip2Unpacking>();
#endif
#ifdef KEYSQUARE_HAS_ZSTD
    if (format == Compression::zstd) return std::make_unique<ZstdUnpacking>();
#endif
    return nullptr;
}

std::unique_ptr<ByteTransform> packing([[maybe_unused]] Compression format) {
#ifdef KEYSQUARE_HAS_ZLIB
    if (format == Compression::gzip) return std::make_unique<GzipPacking>();
#endif
#ifdef KEYSQUARE_HAS_BZIP2
    if (format == Compression::bzip2) return std::make_unique<Bzip2Packing>();
#endif
#ifdef KEYSQUARE_HAS_ZSTD
    if (format == Compression::zstd) return std::make_unique<ZstdPacking>();
#endif
    return nullptr;
}

} // namespace keysquare
