#define BOOST_TEST_MODULE keysquare
#include <boost/test/included/unit_test.hpp>
