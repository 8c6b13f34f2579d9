module.exports = { skipDownload: true }
