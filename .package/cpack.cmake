# Read by cpack before it packs: files in a package are as old as its release, unless SOURCE_DATE_EPOCH says otherwise.
if(NOT DEFINED ENV{SOURCE_DATE_EPOCH})
  set(ENV{SOURCE_DATE_EPOCH} ${CPACK_TIDEMARK_EPOCH})
endif()
