### What stands round the leaves of a booklet, and beside them.

# $page (text): the page's number
# $pages (text): how many there are
booklet-page = Page { $page } of { $pages }
booklet-remark = Remark
