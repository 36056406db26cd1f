#define BOOST_TEST_MODULE keysquare
#ifdef __EMSCRIPTEN__
#define BOOST_TEST_DISABLE_ALT_STACK // there are no signals to handle
#endif
#include <boost/test/included/unit_test.hpp>
